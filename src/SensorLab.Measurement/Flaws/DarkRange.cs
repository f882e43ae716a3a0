using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Flaws;

/// <summary>How far the means of an ISO's dark frames lie apart within their levels.</summary>
/// <param name="RangeDn">The largest difference of two frames of one level, channels on the mean, in DN.</param>
/// <param name="Deviations">How far beyond chance the scatter is, in standard deviations.</param>
internal sealed record DarkRange(double RangeDn, double Deviations)
{
    /// <summary>A tenth of a code: twice what black may be off.</summary>
    private const double SmallestDn = 0.1;

    public bool IsDrift => RangeDn > SmallestDn && Deviations > Significance.Deviations;

    public static DarkRange Of(IsoEvidence evidence)
    {
        double range = 0;
        double chiSquare = 0;
        int degrees = 0;
        int channels = evidence.Channels.Count;
        foreach (EvidenceLevel dark in evidence.Darks.Where(d => d.Record.Frames > 1))
        {
            double[] means = [.. Enumerable.Range(0, dark.Record.Frames).Select(f => dark.Record.Channels.Average(c => c.FrameMeansDn[f]))];
            double mean = means.Average();

            // Channels share rows and columns, hence their noise: their variances are averaged as if it were one.
            double variance = Enumerable.Range(0, channels).Average(c => dark.VarianceOfFrameMean(c)!.Value);
            chiSquare += means.Sum(m => (m - mean) * (m - mean)) / variance;
            degrees += means.Length - 1;
            range = Math.Max(range, means.Max() - means.Min());
        }

        return new DarkRange(range, degrees == 0 ? 0 : ChiSquareTest.Deviations(chiSquare, degrees));
    }
}
