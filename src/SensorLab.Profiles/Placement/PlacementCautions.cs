using System.Globalization;

namespace SensorLab.Profiles.Placement;

/// <summary>What a placement leaves out or rests on, in a photographer's words.</summary>
internal static class PlacementCautions
{
    public const string Flare = "Sensor only: flare of lens and scene comes on top.";

    public static IReadOnlyList<string> Of(SensorProfile profile, EvAxis axis, PlacementQuestion question, Figure? darkest)
    {
        List<string> cautions = [Flare];
        AddBrightEnd(cautions, axis, question.ToneEv);
        if (axis.MeterStandardUncertaintyEv is null)
        {
            cautions.Add("Middle grey was not metered: how far this body's meter reads from it is not known, and not in the uncertainty.");
        }

        if (darkest is null)
        {
            cautions.Add($"The shadow end at SNR {EvAxis.TextureSnr.ToString(CultureInfo.InvariantCulture)} was not measured at this ISO.");
        }

        if (BandsAt(profile, axis.Iso) is { } bands && (darkest?.Value ?? darkest?.AtMost) is { } end && bands > end)
        {
            cautions.Add(string.Create(CultureInfo.InvariantCulture, $"Bands show from {bands:F1} EV down, above the end of textured shadow."));
        }

        if (question.Light is not null)
        {
            cautions.Add("The spot meter is taken to read this light as green does.");
        }
        else if (axis.AboveAnyLightEv is not null)
        {
            cautions.Add("For the light under which the set was shot: under another, red or blue may clip first, and headroom is less.");
        }

        return cautions;
    }

    private static void AddBrightEnd(List<string> cautions, EvAxis axis, double toneEv)
    {
        if (axis.AboveEv is null)
        {
            cautions.Add("Where the sensor saturates was not measured at this ISO: nothing can be said of headroom.");
        }
        else if (axis.AboveEv.Value is null)
        {
            cautions.Add("Saturation is known as a bound only, in which the meter's uncertainty is not included: allow a meter step.");
        }

        if (axis.AboveEv is not null && axis.Clips(toneEv) is null)
        {
            cautions.Add("Whether this tone clips is not known: it lies beyond the bound.");
        }
    }

    private static double? BandsAt(SensorProfile profile, int iso) =>
        -profile.IsoProfiles.First(p => p.Iso == iso).Latitude.BandsEndEv?.Value;
}
