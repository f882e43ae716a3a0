using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>black-clipped: the codes of dark frames pile up at the lowest one.</summary>
internal sealed class BlackClippedCheck : IIsoCheck
{
    /// <summary>Share of dark values at the lowest code below which read noise is off by under half a percent.</summary>
    private const double SmallestShare = 0.005;

    /// <summary>How many times more values stand at the lowest code than at its mirror above the middle: a distribution's own edge has as many.</summary>
    private const double PileUpRatio = 3;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        List<(string Name, double Share, double LeftDn)> clipped = [];
        for (int channel = 0; channel < evidence.Channels.Count; channel++)
        {
            foreach (EvidenceLevel dark in evidence.Darks)
            {
                CodeHistogram codes = dark.Statistics.Channels[channel].Codes;
                double share = (double)codes.Counts[0] / codes.Counts.Sum();
                if (PilesUp(codes, share))
                {
                    clipped.Add((evidence.Channels[channel].Name, share, dark.Record.Channels[channel].MeanDn - codes.FirstCodeDn));
                }
            }
        }

        if (clipped.Count > 0)
        {
            string[] names = [.. clipped.Select(c => c.Name).Distinct()];
            double share = clipped.Max(c => c.Share);
            yield return FlawFinding.Warning(
                FindingCode.BlackClipped,
                evidence.Iso,
                clipped.Min(c => c.LeftDn),
                "dn",
                $"At ISO {evidence.Iso} the file cuts dark values off at black: {share:P1} of them stand at the lowest code. Black comes out too high and read noise too low, and with them the shadow end.",
                "Nothing to do at the camera; believe the lit exposures of the shadows more than the dark frames.").For(names, evidence.Channels.Count).In(evidence.Darks);
        }
    }

    private static bool PilesUp(CodeHistogram codes, double share)
    {
        if (codes.FirstCodeDn == 0)
        {
            return share > SmallestShare;
        }

        long total = codes.Counts.Sum();
        long below = 0;
        int middle = 0;
        while (below + codes.Counts[middle] <= total / 2)
        {
            below += codes.Counts[middle++];
        }

        double mirror = 2 * middle < codes.Counts.Count ? codes.Counts[2 * middle] : 0;
        return share > SmallestShare && middle > 0 && codes.Counts[0] > PileUpRatio * Math.Max(mirror, codes.Counts.Count > 1 ? codes.Counts[1] / PileUpRatio : 0);
    }
}
