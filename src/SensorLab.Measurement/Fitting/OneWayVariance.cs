namespace SensorLab.Measurement.Fitting;

/// <summary>One-way analysis of variance: what groups differ by, against what differs inside them.</summary>
/// <param name="BetweenMeanSquare">Mean square between groups, per single value.</param>
/// <param name="WithinMeanSquare">Mean square within groups.</param>
/// <param name="BetweenDegrees">Groups less one.</param>
/// <param name="WithinDegrees">Values less groups.</param>
internal readonly record struct OneWayVariance(double BetweenMeanSquare, double WithinMeanSquare, int BetweenDegrees, int WithinDegrees)
{
    /// <summary>The F statistic.</summary>
    public double Ratio => BetweenMeanSquare / WithinMeanSquare;

    /// <summary>Analyses groups of values; null without two groups and a value more than groups.</summary>
    /// <param name="groups">Values by group, one or more in each.</param>
    /// <remarks>
    /// Deviations are taken from the first value, which is exact where values share their leading digits, and about each
    /// group's mean in a second pass.
    /// </remarks>
    public static OneWayVariance? Of(IReadOnlyList<IReadOnlyList<double>> groups)
    {
        int values = groups.Sum(g => g.Count);
        if (groups.Count < 2 || values <= groups.Count)
        {
            return null;
        }

        double origin = groups[0][0];
        double[] means = [.. groups.Select(g => g.Sum(v => v - origin) / g.Count)];
        double grand = groups.Select((g, i) => g.Count * means[i]).Sum() / values;
        double between = groups.Select((g, i) => g.Count * (means[i] - grand) * (means[i] - grand)).Sum();
        double within = groups.Select((g, i) => SquaresAbout(g, origin, means[i])).Sum();
        return new OneWayVariance(between / (groups.Count - 1), within / (values - groups.Count), groups.Count - 1, values - groups.Count);
    }

    /// <summary>Squares about a mean whose own rounding is taken off again.</summary>
    private static double SquaresAbout(IReadOnlyList<double> values, double origin, double mean)
    {
        double squares = 0;
        double rest = 0;
        foreach (double value in values)
        {
            double deviation = value - origin - mean;
            squares += deviation * deviation;
            rest += deviation;
        }

        return squares - (rest * rest / values.Count);
    }
}
