using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Findings.Light;

/// <summary>The lit levels of an ISO whose frames can be compared.</summary>
internal static class LitFrames
{
    /// <summary>Levels this bright show light rather than black: a drift of 10 DN is under 1 % there.</summary>
    private const double LowestShare = 0.1;

    private const double HighestShare = 0.8;

    /// <summary>The levels with what their frames' light differs by, in the channels that are well lit.</summary>
    /// <param name="evidence">The ISO.</param>
    public static IEnumerable<(EvidenceLevel Level, FrameLight Light)> Of(IsoEvidence evidence)
    {
        foreach (EvidenceLevel level in evidence.Lit.Where(l => l.Record.Frames > 1))
        {
            int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count).Where(c => evidence.IsBetween(level, c, LowestShare, HighestShare))];
            if (channels.Length > 0)
            {
                ObservedLevel[] own = [.. channels.Select(c => new ObservedLevel(level.Record, level.Record.Channels[c]))];
                yield return (level, FrameLight.Of(own, channels.Sum(c => evidence.SignalDn(level, c)), evidence.Black.Drift.FrameDn2));
            }
        }
    }
}
