using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Target;

/// <summary>pixels-hot: photosites that stand out of their neighbours in the sum of a level's frames; one that blinks stands out in some of them.</summary>
internal sealed class PixelsHotCheck : IIsoCheck
{
    /// <summary>Share of a normal distribution beyond five standard deviations, both sides: what is counted by chance.</summary>
    private const double ChanceShare = 5.7e-7;

    /// <summary>
    /// The same where dark values are cut off: at the worst, in the middle, a deviation looks 0.6 times as large, and five of
    /// them are three on the side that is left. Lit levels take the sites over.
    /// </summary>
    private const double ChanceShareCutOff = 1.35e-3;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count)];
        EvidenceLevel[] levels = [.. evidence.Levels.Where(l => l.Record.Frames > 1 && (l.IsDark || channels.All(c => evidence.IsBetween(l, c, 0, FitRange.HighestShare) && evidence.IsWhole(l, c))))];
        EvidenceLevel? worst = levels.MaxBy(Count);
        if (worst is null)
        {
            yield break;
        }

        double chance = channels.Sum(c => (evidence.FloorDn(c) is null ? ChanceShare : ChanceShareCutOff) * (worst.Record.Channels[c].Pixels ?? worst.Record.PixelsPerChannel));
        int count = Count(worst);
        if (count > 2 + chance + (Significance.Deviations * Math.Sqrt(chance)))
        {
            yield return FlawFinding.Note(
                FindingCode.PixelsHot,
                evidence.Iso,
                count,
                "count",
                $"At ISO {evidence.Iso} {count} pixels of the region stand out of their neighbours (hot, dead, or blinking from frame to frame). Compensated: they were kept out of all figures.",
                "Nothing to do; map them in the body's menu if it offers that.").In([worst]);
        }
    }

    private static int Count(EvidenceLevel level) => level.Statistics.Channels.Sum(c => c.DefectivePixels);
}
