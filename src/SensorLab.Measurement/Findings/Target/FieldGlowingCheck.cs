using SensorLab.Frames;
using SensorLab.Pixels.Field;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Target;

/// <summary>field-glowing: a part of the field is bright in dark frames, with light of the electronics' own.</summary>
internal sealed class FieldGlowingCheck : IIsoCheck
{
    /// <summary>How far from the middle a glow must lie to have a side.</summary>
    private const double SideShare = 0.5;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        EvidenceLevel[] darks = [.. evidence.Darks];
        if (evidence.Glow.Value is not { } glow)
        {
            yield break;
        }

        EvidenceLevel longest = darks.MaxBy(d => d.Record.ExposureSeconds)!;
        FieldMap map = longest.Statistics.Field;
        PixelRectangle region = longest.Statistics.Area.Region;
        double gain = evidence.GainDnPerElectron(evidence.Greens[0]);
        double noise = Math.Sqrt(glow.PeakDn / gain);
        FormattableString does = double.IsFinite(noise)
            ? (FormattableString)$"there it adds {noise:F1} electrons of noise to the shadows"
            : $"there shadows have that much more noise";
        bool isOut = !RegionReview.Reaches(glow, map, region);
        FormattableString message = $"At ISO {evidence.Iso} {PlaceOf(glow.Place)} of the field glows without light, by {glow.PeakDn:F1} DN after {glow.Seconds:G3} s, over {glow.IsIn.Count(c => c) / (double)glow.IsIn.Length:P0} of it: {does}. {(isOut ? "Compensated: all figures are of the rest of the field." : "Not compensated: it lies in the region that is measured, whose dark signal, pattern and shadows hold it.")}";
        const string Remedy = "Use shorter exposures or let the body cool down, and mind that place in deep shadows of long exposures.";
        Finding finding = isOut
            ? FlawFinding.Note(FindingCode.FieldGlowing, evidence.Iso, glow.PeakDn, "dn", message, Remedy)
            : FlawFinding.Warning(FindingCode.FieldGlowing, evidence.Iso, glow.PeakDn, "dn", message, $"{Remedy} Choose a region without it.");
        yield return finding.In([longest]);
    }

    private static string PlaceOf((double X, double Y) place)
    {
        string side = place.X < -SideShare ? "left" : place.X > SideShare ? "right" : string.Empty;
        string end = place.Y < -SideShare ? "upper" : place.Y > SideShare ? "lower" : string.Empty;
        return (side, end) switch
        {
            ("", "") => "a part inside",
            ("", _) => $"the {end} edge",
            (_, "") => $"the {side} edge",
            _ => $"the {end} {side} corner",
        };
    }
}
