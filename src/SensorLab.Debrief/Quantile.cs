namespace SensorLab.Debrief;

/// <summary>Quantiles of a few numbers, straight between neighbours.</summary>
internal static class Quantile
{
    /// <summary>A quantile.</summary>
    /// <param name="numbers">The numbers.</param>
    /// <param name="share">From 0 to 1.</param>
    /// <returns>Null where there is no number.</returns>
    public static double? Of(IEnumerable<double> numbers, double share)
    {
        double[] rising = [.. numbers.Order()];
        if (rising.Length == 0)
        {
            return null;
        }

        double at = share * (rising.Length - 1);
        int below = (int)at;
        return below + 1 < rising.Length ? rising[below] + ((at - below) * (rising[below + 1] - rising[below])) : rising[below];
    }
}
