using SensorLab.Law;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>How unevenly a converter's steps are spaced, told by how often its codes are met.</summary>
/// <remarks>
/// A code is met as often as its step is wide. Noise over many codes makes a smooth distribution; what a code's count n_k
/// lies off (4(n_k−1 + n_k+1) − (n_k−2 + n_k+2))/6 is chance, of variance 35/18 of n, or the width of its step.
/// </remarks>
internal static class ConverterSteps
{
    /// <summary>Noise in DN from which on the distribution itself bends by less than a thousandth over five codes.</summary>
    private const double SmoothNoiseDn = 5;

    /// <summary>Values a code from which on its count is as good as normally distributed.</summary>
    private const long FewestValues = 40;

    /// <summary>Variance of the difference over the count: 1 + (4² + 4² + 1 + 1)/6².</summary>
    private const double VarianceOverCount = 70.0 / 36.0;

    /// <summary>What a count lies off over the unevenness of the widths: 1.4 where they are random, 2.7 where wide and narrow ones take turns.</summary>
    private const double OffOverWidth = 2;

    /// <summary>By how much more the sum of squares scatters than of independent ones: five neighbouring differences share counts.</summary>
    private const double SharedCounts = 2;

    /// <summary>Root mean square of the steps' relative widths that moves a variance by a hundredth where noise is as wide as ten of them.</summary>
    private const double SmallestUnevenness = 0.03;

    /// <summary>Root mean square of the steps' width less one DN, to within a third, over all unclipped levels with noise enough; null where they are even within chance.</summary>
    /// <param name="evidence">The ISO.</param>
    public static double? UnevennessOf(IsoEvidence evidence)
    {
        double chiSquare = 0;
        double squares = 0;
        double weights = 0;
        int codes = 0;
        foreach (EvidenceLevel level in evidence.Levels)
        {
            for (int channel = 0; channel < evidence.Channels.Count; channel++)
            {
                if (level.Record.Channels[channel].ClippedFraction > 0 || !(level.VarianceOfPixel(channel) > SmoothNoiseDn * SmoothNoiseDn))
                {
                    continue;
                }

                IReadOnlyList<long> counts = level.Statistics.Channels[channel].Codes.Counts;
                for (int k = 2; k < counts.Count - 2; k++)
                {
                    double smooth = ((4.0 * (counts[k - 1] + counts[k + 1])) - counts[k - 2] - counts[k + 2]) / 6;
                    if (smooth < FewestValues)
                    {
                        continue;
                    }

                    double off = counts[k] - smooth;
                    double variance = VarianceOverCount * smooth;
                    chiSquare += off * off / variance;
                    double met = (counts[k] + smooth) / 2;
                    squares += ((off * off) - variance) / met;
                    weights += met;
                    codes++;
                }
            }
        }

        // Where no code was met this is 0/0, which lies above no threshold.
        double unevenness = Math.Sqrt(Math.Max(0, squares / weights)) / OffOverWidth;
        return chiSquare - codes > Significance.Deviations * SharedCounts * Math.Sqrt(2.0 * codes) && unevenness > SmallestUnevenness ? unevenness : null;
    }
}
