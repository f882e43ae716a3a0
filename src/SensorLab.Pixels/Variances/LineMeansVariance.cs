using SensorLab.Law;

namespace SensorLab.Pixels.Variances;

/// <summary>The variance of row or column means that a smooth course does not reach.</summary>
/// <param name="Value">Variance of one value about its neighbours' course.</param>
/// <param name="DegreesOfFreedom">Degrees of freedom that it is worth.</param>
internal readonly record struct LineMeansVariance(double Value, double DegreesOfFreedom)
{
    /// <summary>Var(x₀ − (x₋₁ + x₁)/2) of white noise of unit variance.</summary>
    private const double SecondDifferenceVariance = 1.5;

    /// <summary>How many second differences weigh as much as one degree of freedom: Σγ²/γ₀² of their autocovariance (1.5, −1, 0.25).</summary>
    public const double DifferencesADegree = 4.375 / (SecondDifferenceVariance * SecondDifferenceVariance);

    /// <summary>Lines from which two variances of theirs are compared: of fewer they differ too much by chance.</summary>
    private const int FewestByTurns = 48;

    /// <summary>The variance's standard uncertainty, for normal noise.</summary>
    public double StandardUncertainty => Value * Math.Sqrt(2 / DegreesOfFreedom);

    /// <summary>Variance from second differences: shading, gradients and bands wider than a few rows drop out.</summary>
    /// <param name="values">The means, three or more.</param>
    /// <param name="divisor">What each value is divided by.</param>
    public static LineMeansVariance OfSecondDifferences(ReadOnlySpan<double> values, double divisor) => OfSecondDifferences(values, divisor, 1);

    /// <summary>The same of lines that two readouts share out among them by turns, as far as that is beyond chance: in second differences their distance counts four times, in the variance once.</summary>
    /// <param name="values">The means, three or more.</param>
    /// <remarks>Of white noise of variance w and lines ± a by turns, second differences have 1.5 w + 4 a², those over every other line 1.5 w.</remarks>
    public static LineMeansVariance OfLinesByTurns(ReadOnlySpan<double> values)
    {
        LineMeansVariance all = OfSecondDifferences(values, divisor: 1);
        if (values.Length < FewestByTurns)
        {
            return all;
        }

        LineMeansVariance alike = OfSecondDifferences(values, divisor: 1, distance: 2);
        double between = all.Value - alike.Value;
        return between > Significance.Deviations * Math.Sqrt(2) * alike.StandardUncertainty
            ? all with { Value = alike.Value + (between * SecondDifferenceVariance / 4) }
            : all;
    }

    private static LineMeansVariance OfSecondDifferences(ReadOnlySpan<double> values, double divisor, int distance)
    {
        int differences = values.Length - (2 * distance);
        double squares = 0;
        for (int i = distance; i < distance + differences; i++)
        {
            double difference = (values[i] - ((values[i - distance] + values[i + distance]) / 2)) / divisor;
            squares += difference * difference;
        }

        double variance = squares / (SecondDifferenceVariance * differences);
        return new LineMeansVariance(variance, differences / DifferencesADegree);
    }

    /// <summary>Variance about the mean, in two passes: squares of large values would drown what they differ by.</summary>
    /// <param name="values">The means, two or more.</param>
    /// <param name="divisor">What each value is divided by.</param>
    public static LineMeansVariance AboutMean(ReadOnlySpan<double> values, double divisor)
    {
        double mean = 0;
        foreach (double value in values)
        {
            mean += value;
        }

        mean /= values.Length;
        double squares = 0;
        double rest = 0;
        foreach (double value in values)
        {
            double deviation = value - mean;
            squares += deviation * deviation;
            rest += deviation;
        }

        double degrees = values.Length - 1;
        double variance = (squares - (rest * rest / values.Length)) / degrees / (divisor * divisor);
        return new LineMeansVariance(variance, degrees);
    }

    /// <summary>The mean of independent variances of as many lines.</summary>
    /// <param name="variances">One or more.</param>
    public static LineMeansVariance Mean(IReadOnlyCollection<LineMeansVariance> variances) =>
        new(variances.Average(v => v.Value), variances.Sum(v => v.DegreesOfFreedom));

    /// <summary>The same of variances that ought to be equal: worth fewer degrees of freedom where they differ by more than chance lets them.</summary>
    /// <param name="variances">One or more.</param>
    /// <remarks>
    /// One frame of a level that was disturbed has bands of its own, and how much of them a frame has next time is told by how the
    /// frames differ. Means of lines are normal, as this takes for granted; single values that are rounded to few codes are not.
    /// </remarks>
    public static LineMeansVariance MeanOfEqual(IReadOnlyCollection<LineMeansVariance> variances)
    {
        LineMeansVariance mean = Mean(variances);
        double chiSquare = variances.Sum(v => v.DegreesOfFreedom / 2 * Math.Pow((v.Value / mean.Value) - 1, 2));
        return mean.Value > 0 ? mean with { DegreesOfFreedom = mean.DegreesOfFreedom / ChiSquareTest.ScatterFactor(chiSquare, variances.Count - 1) } : mean;
    }
}
