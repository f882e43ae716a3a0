using System.Globalization;
using System.Text.Json;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>What is true of a rehearsal, computed from the body and the exposures as they were, never from pixels.</summary>
public static class RehearsalTruth
{
    private static readonly int[] Criteria = [40, 20, 10, 4, 1];

    /// <summary>The truth of every ISO of a plan.</summary>
    /// <param name="plan">The plan, flaws applied.</param>
    public static IReadOnlyList<IsoTruth> Of(RehearsalPlan plan) =>
        [.. plan.IsoValues.Select(iso => OfIso(plan, iso))];

    /// <summary>The text of FRAMES.truth.json: a list with one object an ISO.</summary>
    /// <param name="truth">The truth.</param>
    public static string ToText(IReadOnlyList<IsoTruth> truth) => JsonSerializer.Serialize(truth, TruthJson.Default.Truth) + "\n";

    private static IsoTruth OfIso(RehearsalPlan plan, int iso)
    {
        VirtualBody body = plan.Camera.Body;
        VirtualIso setting = body.At(iso);
        var law = new SensorLaw(body, setting);
        double[] metered =
        [
            .. plan.Frames
                .Where(frame => frame.Role == FrameRole.Metered && frame.Exposure.Setting.Iso == iso)
                .Select(frame => frame.Exposure.LightElectron * (frame.Exposure.RowLight?.Average() ?? 1)),
        ];
        double? grey = metered.Length > 0 ? metered.Average() : null;
        double? aboveEv = grey is { } light ? Math.Log2(law.SaturatingElectron / (light * law.LargestSensitivity)) : null;
        return new IsoTruth
        {
            Iso = iso,
            GainElectronPerDn = setting.GainElectronPerDn,
            ReadNoiseElectron = setting.ReadNoiseElectron,
            BlackLevelDn = law.DarkMeanDn(body.BlackLevelDn),
            OpticalBlackLevelDn = body.Layout().MaskedAreas.Count > 0 ? law.DarkMeanDn(body.BlackLevelDn + body.MaskedBlackShiftDn) : null,
            SaturationDn = law.SaturationDn,
            SaturationElectron = law.SaturatingElectron,
            FirstClipDn = law.FirstClipDn(),
            MiddleGreyDn = grey is { } mean ? law.Responded(mean * law.GreenSensitivity) / setting.GainElectronPerDn : null,
            AboveEv = aboveEv,
            Previews = Previews(plan, setting, grey, aboveEv),
            PrnuPercent = 100 * law.PrnuFraction,
            DsnuElectron = law.DsnuElectron,
            RowNoiseElectron = body.RowNoiseElectron,
            ColumnNoiseElectron = body.ColumnNoiseElectron,
            BelowEv = BelowEv(law, grey * law.GreenSensitivity),
        };
    }

    // A look speaks of the meter's exact zero; the truth, like a profile, of the metered frames.
    private static PreviewTruth[]? Previews(RehearsalPlan plan, VirtualIso setting, double? grey, double? aboveEv)
    {
        bool isShown = plan.Frames.Any(frame => frame.Exposure.Setting.Iso == setting.Iso && frame.Look is not null);
        return isShown && grey is { } metered && aboveEv is { } above
            ? [.. plan.Camera.Body.Looks.Select(look => Preview(look, Math.Log2(setting.MiddleGreyElectron / metered), above))]
            : null;
    }

    private static PreviewTruth Preview(PreviewLook look, double shiftEv, double aboveEv)
    {
        double clipEv = look.ClipEv + shiftEv;
        double shadowEndEv = look.ShadowEndEv + shiftEv;
        int first = (int)Math.Floor(2 * shadowEndEv);
        int last = (int)Math.Ceiling(2 * clipEv);
        ToneTruth[] curve = [.. Enumerable.Range(first, last - first + 1).Select(half => new ToneTruth(0.5 * half, look.CodeAt((0.5 * half) - shiftEv)))];
        return new PreviewTruth(look.Name, clipEv, shadowEndEv, aboveEv - clipEv, look.CodeAt(-shiftEv), curve);
    }

    private static Dictionary<string, double> BelowEv(SensorLaw law, double? greyElectron)
    {
        var below = new Dictionary<string, double>();
        foreach (int criterion in Criteria)
        {
            if (greyElectron is { } grey && law.ElectronAtSnr(criterion) is { } electrons)
            {
                below[string.Create(CultureInfo.InvariantCulture, $"snr{criterion}")] = Math.Log2(grey / electrons);
            }
        }

        return below;
    }
}
