using System.Globalization;
using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>What the fit of an ISO has to say beside its figures.</summary>
internal static class LatitudeFindings
{
    public static Finding GreyNotDefined(int iso) => new()
    {
        Code = FindingCode.SaturationNotReached,
        Severity = FindingSeverity.Refusal,
        Iso = iso,
        Message = Text($"At ISO {iso} no exposure reaches the clip, so middle grey cannot be taken from saturation."),
        Remedy = "Shoot brighter exposures until the raw file clips, or metered frames.",
    };

    public static IEnumerable<Finding> Of(int iso, IReadOnlyList<ChannelModel> channels, NoiseModel pooled, IsoOptions options)
    {
        string[] unsaturated = [.. channels.Where(c => c.Saturation?.MeanDn is null).Select(c => c.Name)];
        if (unsaturated.Length > 0)
        {
            yield return NotSaturated(iso, unsaturated, channels.Count);
        }

        ChannelModel[] coarse = [.. channels.Where(c => c.IsBelowStep)];
        if (coarse.Length > 0)
        {
            yield return BelowStep(iso, coarse);
        }

        if (ShadowsNotReached(iso, channels, pooled, options) is { } shadows)
        {
            yield return shadows;
        }
    }

    public static Finding ShadowBanded(int iso, BandsEnd bands, NoiseModel pooled)
    {
        double sooner = Math.Log2(bands.SignalDn / pooled.SignalAtSnr(IsoLatitudeBuilder.DefaultSnr));
        double ev = bands.BelowGreyEv.Value;
        string place = Text($"{Math.Abs(ev):F1} stops {(ev < 0 ? "above" : "below")} middle grey");
        return new Finding
        {
            Code = FindingCode.ShadowBanded,
            Severity = FindingSeverity.Warning,
            Iso = iso,
            Size = bands.LineElectron,
            SizeUnit = "electron",
            Message = Text($"At ISO {iso} {(bands.AreRows ? "rows" : "columns")} share {bands.LineElectron:F1} electrons of noise: bands show from {place} down, {sooner:F1} stops before the SNR falls to {IsoLatitudeBuilder.DefaultSnr:F0}. Not compensated: the shadow end stays the SNR's, and where bands show stands beside it."),
            Remedy = Text($"Keep plain dark surfaces, a sky or a wall, brighter than {place}, or do not lift them; bands are seen sooner than grain."),
        };
    }

    private static Finding NotSaturated(int iso, string[] names, int channels) => new()
    {
        Code = FindingCode.SaturationNotReached,
        Severity = FindingSeverity.Warning,
        Iso = iso,
        Channel = names.Length == 1 ? names[0] : null,
        Message = names.Length == channels
            ? Text($"At ISO {iso} the brightest exposure does not clip: what the sensor holds above middle grey is a lower bound.")
            : Text($"At ISO {iso} the brightest exposure does not clip {string.Join(", ", names)}: the clip of these channels is a lower bound."),
        Remedy = "Continue the bracket with longer exposures until two levels are white in every channel.",
    };

    private static Finding BelowStep(int iso, ChannelModel[] coarse) => new()
    {
        Code = FindingCode.NoiseBelowStep,
        Severity = FindingSeverity.Note,
        Iso = iso,
        Channel = coarse.Length == 1 ? coarse[0].Name : null,
        Size = coarse.Max(c => Math.Sqrt(Math.Max(0, c.Noise.TemporalVarianceAt(0) - RoundingNoise.VarianceDn2(c.CodeStepDn)))),
        SizeUnit = "dn",
        Message = Text($"At ISO {iso} the read noise is below half a code step: black and read noise were fitted as a rounded normal distribution, together with the lit exposures."),
        Remedy = "Nothing to do; more dark frames narrow the figures.",
    };

    private static Finding? ShadowsNotReached(int iso, IReadOnlyList<ChannelModel> channels, NoiseModel pooled, IsoOptions options)
    {
        ObservedLevel[] lit = [.. channels.First(c => ChannelName.LeadsPool(c.Name)).Levels.Where(l => !l.IsDark)];
        double lowest = lit.Min(l => l.Channel.MeanDn) - pooled[NoiseParameter.BlackDn];
        double[] beyond = [.. options.SnrCriteria.Where(snr => pooled.SignalAtSnr(snr) < lowest).OrderDescending()];
        if (beyond.Length == 0)
        {
            return null;
        }

        string criteria = string.Join(", ", beyond.Select(snr => snr.ToString(CultureInfo.InvariantCulture)));
        return new Finding
        {
            Code = FindingCode.ShadowNotReached,
            Severity = FindingSeverity.Note,
            Iso = iso,
            Size = Math.Log2(lowest / pooled.SignalAtSnr(beyond[^1])),
            SizeUnit = "ev",
            Message = Text($"At ISO {iso} the darkest exposure is brighter than the shadow end at SNR {criteria}: there the model between it and the dark frames is used."),
            Remedy = "Continue the bracket with shorter exposures if you rely on these criteria.",
        };
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
