using SensorLab.Measurement.Findings;

namespace SensorLab.Measurement.Black;

/// <summary>How much the means of dark frames scatter.</summary>
internal static class DarkScatter
{
    /// <summary>Variance of a channel's dark frame means within their levels, beyond noise.</summary>
    /// <returns>The variance in DN², 0 or more.</returns>
    public static double VarianceDn2(IsoEvidence evidence, int channel)
    {
        double squares = 0;
        int degrees = 0;
        foreach (EvidenceLevel dark in evidence.Darks)
        {
            IReadOnlyList<double> means = dark.Record.Channels[channel].FrameMeansDn;
            if (means.Count < 2)
            {
                continue;
            }

            double mean = means.Average();
            squares += means.Sum(m => (m - mean) * (m - mean)) - ((means.Count - 1) * dark.VarianceOfFrameMean(channel)!.Value);
            degrees += means.Count - 1;
        }

        return degrees == 0 ? 0 : Math.Max(0, squares / degrees);
    }
}
