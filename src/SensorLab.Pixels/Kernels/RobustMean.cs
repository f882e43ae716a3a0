using SensorLab.Law;

namespace SensorLab.Pixels.Kernels;

/// <summary>The mean of whole numbers without those that stand far out: defective pixels.</summary>
/// <remarks>Median and median deviation come from counts, in time that grows with the values alone.</remarks>
internal static class RobustMean
{
    /// <summary>Deviation of a normal variate over the median of its magnitude.</summary>
    private const double DeviationOverMedian = 1.4826;

    /// <summary>The mean of the values that do not stand out.</summary>
    /// <param name="values">One value or more.</param>
    /// <param name="smallestDeviation">What a value may always be off: rounding alone does as much.</param>
    public static double Of(ReadOnlySpan<int> values, double smallestDeviation)
    {
        int lowest = values[0];
        int highest = values[0];
        foreach (int value in values)
        {
            lowest = Math.Min(lowest, value);
            highest = Math.Max(highest, value);
        }

        int[] counts = new int[highest - lowest + 1];
        foreach (int value in values)
        {
            counts[value - lowest]++;
        }

        int half = (values.Length + 1) / 2;
        int median = 0;
        for (int below = counts[0]; below < half;)
        {
            below += counts[++median];
        }

        int reach = 0;
        for (int within = counts[median]; within < half;)
        {
            reach++;
            within += At(counts, median - reach) + At(counts, median + reach);
        }

        double limit = Math.Max(smallestDeviation, Significance.StrayValue * DeviationOverMedian * (reach + 0.5));
        double sum = 0;
        long kept = 0;
        for (int i = (int)Math.Max(0, median - limit); i <= Math.Min(counts.Length - 1, median + limit); i++)
        {
            sum += (double)counts[i] * (lowest + i);
            kept += counts[i];
        }

        return sum / kept;
    }

    private static int At(int[] counts, int index) => index >= 0 && index < counts.Length ? counts[index] : 0;
}
