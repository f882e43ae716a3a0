using System.Runtime.InteropServices;
using SensorLab.Law;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Field;

/// <summary>Single cells of a field's map that stand out of those around them: a hot pixel in them, no light.</summary>
internal static class CellOutliers
{
    /// <summary>Deviation of a normal variate over the median of its magnitude.</summary>
    private const double DeviationOverMedian = 1.4826;

    /// <summary>Puts the neighbours' median in the place of each cell that stands out alone.</summary>
    /// <param name="means">Rows × columns.</param>
    /// <param name="columns">Cells a row.</param>
    /// <returns>The cells, as many; edges and gradients stay as they are.</returns>
    public static double[] Replaced(double[] means, int columns)
    {
        double[] medians = [.. means.Select((_, i) => MedianAround(means, columns, i))];
        double[] off = [.. means.Zip(medians).Select(p => Math.Abs(p.First - p.Second))];
        double limit = Significance.StrayCell * DeviationOverMedian * Ranked.MedianOf([.. off]);
        return [.. means.Select((mean, i) => off[i] > limit ? medians[i] : mean)];
    }

    private static double MedianAround(double[] means, int columns, int at)
    {
        int rows = means.Length / columns;
        var around = new List<double>(9);
        for (int row = Math.Max(0, (at / columns) - 1); row <= Math.Min(rows - 1, (at / columns) + 1); row++)
        {
            for (int column = Math.Max(0, (at % columns) - 1); column <= Math.Min(columns - 1, (at % columns) + 1); column++)
            {
                around.Add(means[(row * columns) + column]);
            }
        }

        return Ranked.MedianOf(CollectionsMarshal.AsSpan(around));
    }
}
