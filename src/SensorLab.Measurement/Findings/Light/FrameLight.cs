using SensorLab.Law;

namespace SensorLab.Measurement.Findings.Light;

/// <summary>How much the light of a level's frames differs, all channels together.</summary>
/// <param name="ChiSquare">Squared deviations over what noise and the drift of black explain.</param>
/// <param name="DegreesOfFreedom">Frames less one.</param>
/// <param name="ExcessSquares">Squared relative deviations, less what noise explains.</param>
internal sealed record FrameLight(double ChiSquare, int DegreesOfFreedom, double ExcessSquares)
{
    /// <summary>Levels this bright show light rather than black: a drift of 10 DN is under 1 % there.</summary>
    private const double LowestShare = 0.1;

    private const double HighestShare = 0.8;

    /// <summary>Relative standard deviation of the frames' light.</summary>
    public double Relative => Math.Sqrt(Math.Max(0, ExcessSquares) / DegreesOfFreedom);

    /// <summary>How far beyond chance it is, in standard deviations.</summary>
    public double Deviations => ChiSquareTest.Deviations(ChiSquare, DegreesOfFreedom);

    /// <summary>The lit levels of an ISO that have frames to compare.</summary>
    public static IEnumerable<(EvidenceLevel Level, FrameLight Light)> OfAll(IsoEvidence evidence)
    {
        foreach (EvidenceLevel level in evidence.Lit.Where(l => l.Record.Frames > 1))
        {
            int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count).Where(c => evidence.IsBetween(level, c, LowestShare, HighestShare))];
            if (channels.Length > 0)
            {
                yield return (level, Of(evidence, level, channels));
            }
        }
    }

    private static FrameLight Of(IsoEvidence evidence, EvidenceLevel level, int[] channels)
    {
        int frames = level.Record.Frames;
        double total = channels.Sum(c => evidence.SignalDn(level, c));
        double noise = channels.Sum(c => level.VarianceOfFrameMean(c)!.Value) / (total * total);
        double black = evidence.Black.Drift.FrameDn2 * Math.Pow(channels.Length / total, 2);
        double squares = Enumerable.Range(0, frames).Sum(f =>
            Math.Pow((channels.Sum(c => level.Record.Channels[c].FrameMeansDn[f] - evidence.BlackDn(c)) / total) - 1, 2));
        return new FrameLight(squares / (noise + black), frames - 1, squares - ((frames - 1) * (noise + black)));
    }
}
