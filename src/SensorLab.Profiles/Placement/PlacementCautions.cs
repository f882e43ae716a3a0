using System.Globalization;

namespace SensorLab.Profiles.Placement;

/// <summary>What a placement leaves out or rests on, in a photographer's words.</summary>
internal static class PlacementCautions
{
    public const string Flare = "Sensor only: flare of lens and scene comes on top.";

    public const string LightAsGreen = "The spot meter is taken to read this light as green does.";

    public const string OtherLight = "For the light under which the set was shot: under another, red or blue may clip first, and headroom is less.";

    public static IReadOnlyList<string> Of(SensorProfile profile, EvAxis axis, PlacementQuestion question, Figure? darkest)
    {
        List<string> cautions = [Flare, .. OfIso(profile, axis, darkest)];
        if (axis.AboveEv is not null && axis.Clips(question.ToneEv) is null)
        {
            cautions.Add("Whether this tone clips is not known: it lies beyond the bound.");
        }

        if (question.Light is not null)
        {
            cautions.Add(LightAsGreen);
        }
        else if (axis.AboveAnyLightEv is not null)
        {
            cautions.Add(OtherLight);
        }

        return cautions;
    }

    /// <summary>What any placement at an ISO rests on, whatever the tone and the light.</summary>
    public static IEnumerable<string> OfIso(SensorProfile profile, EvAxis axis, Figure? darkest)
    {
        if (axis.AboveEv is null)
        {
            yield return "Where the sensor saturates was not measured at this ISO: nothing can be said of headroom.";
        }
        else if (axis.AboveEv.Value is null)
        {
            yield return "Saturation is known as a bound only, in which the meter's uncertainty is not included: allow a meter step.";
        }

        if (axis.MeterStandardUncertaintyEv is null)
        {
            yield return "Middle grey was not metered: how far this body's meter reads from it is not known, and not in the uncertainty.";
        }

        if (darkest is null)
        {
            yield return $"The shadow end at SNR {EvAxis.TextureSnr.ToString(CultureInfo.InvariantCulture)} was not measured at this ISO.";
        }

        if (BandsAt(profile, axis.Iso) is { } bands && (darkest?.Value ?? darkest?.AtMost) is { } end && bands > end)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"Bands show from {bands:F1} EV down, above the end of textured shadow.");
        }
    }

    private static double? BandsAt(SensorProfile profile, int iso) =>
        -profile.IsoProfiles.First(p => p.Iso == iso).Latitude.BandsEndEv?.Value;
}
