using SensorLab.Law;
using SensorLab.Pixels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Target;

/// <summary>target-uneven: the light falls off over the region measured, or so far beyond it that the rest of the field was left out.</summary>
internal sealed class TargetUnevenCheck : IIsoCheck
{
    /// <summary>What the blocks' own noise and fixed pattern reach in no clean set: 2 % of the brightest block.</summary>
    private const double SmallestRelative = 0.02;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        int green = evidence.Greens[0];
        EvidenceLevel? level = evidence.Lit.Where(l => evidence.IsBetween(l, green, 0.1, 0.6)).MaxBy(l => evidence.SignalDn(l, green));
        if (level is null)
        {
            yield break;
        }

        BlockSpread blocks = level.Statistics.Channels[green].Blocks;
        double black = evidence.BlackDn(green);
        double missing = 1 - ((blocks.LowestMeanDn - black) / (blocks.HighestMeanDn - black));
        double noise = Math.Sqrt(blocks.VarianceDn2 / blocks.PixelsABlock) / evidence.SignalDn(level, green);
        if (evidence.Options.FieldMissing is { } field && field > Math.Max(missing, SmallestRelative))
        {
            yield return LeftOut(evidence, level, field);
        }
        else if (missing > SmallestRelative && missing > Significance.RangeOfBlocks * noise)
        {
            yield return FlawFinding.Note(
                FindingCode.TargetUneven,
                evidence.Iso,
                missing,
                "relative",
                $"At ISO {evidence.Iso} the darkest part of the region measured has {missing:P0} less light than the brightest. Compensated: noise is measured in small blocks, each with its own light.",
                "Light the field from both sides and from farther away, or stop the lens down, if you want a larger region.").In([level]);
        }
    }

    private static Finding LeftOut(IsoEvidence evidence, EvidenceLevel level, double missing)
    {
        double share = level.Record.Channels.Sum(c => (double)(c.Pixels ?? level.Record.PixelsPerChannel)) / evidence.Options.SensorPixels;
        return FlawFinding.Note(
            FindingCode.TargetUneven,
            evidence.Iso,
            missing,
            "relative",
            $"The darkest part of the field has {missing:P0} less light than the brightest. Compensated: only the most evenly lit {share:P0} of the frame are measured at ISO {evidence.Iso}; fewer pixels make all figures less certain.",
            "Light the field from both sides and from farther away, or stop the lens down, if you want a larger region.").In([level]);
    }
}
