namespace SensorLab.RawFiles;

/// <summary>Tells a maker's companding curve from a straight one.</summary>
internal static class CurveSteps
{
    /// <summary>Parts of the curve whose mean steps are compared.</summary>
    private const int Parts = 8;

    /// <summary>
    /// A part's mean step over the first part's above which the curve compands. A straight curve whose steps are
    /// rounded to whole codes stays below it: over a part of n codes its mean step is off by less than 1/n.
    /// </summary>
    private const double LargestStraightRatio = 1.25;

    /// <summary>Whether a curve's steps grow with the signal, between where it leaves its first value and where it reaches its highest.</summary>
    /// <param name="linear">Linear codes by stored code.</param>
    public static bool Grow(ReadOnlySpan<ushort> linear)
    {
        int highest = 0;
        foreach (ushort code in linear)
        {
            highest = Math.Max(highest, code);
        }

        int rising = linear.IndexOf((ushort)highest);
        int first = linear.LastIndexOf(linear[0]);
        int parts = Math.Min(Parts, (rising - first) / 2);
        if (parts < 2)
        {
            return false;
        }

        double firstStep = StepOf(linear, first, rising, 0, parts);
        for (int part = 1; part < parts; part++)
        {
            if (StepOf(linear, first, rising, part, parts) > LargestStraightRatio * firstStep)
            {
                return true;
            }
        }

        return false;
    }

    private static double StepOf(ReadOnlySpan<ushort> linear, int first, int rising, int part, int parts)
    {
        int from = first + (int)((long)(rising - first) * part / parts);
        int to = first + (int)((long)(rising - first) * (part + 1) / parts);
        return (linear[to] - linear[from]) / (double)(to - from);
    }
}
