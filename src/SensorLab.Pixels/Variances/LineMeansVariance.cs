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

    /// <summary>The variance's standard uncertainty, for normal noise.</summary>
    public double StandardUncertainty => Value * Math.Sqrt(2 / DegreesOfFreedom);

    /// <summary>Variance from second differences: shading, gradients and bands wider than a few rows drop out.</summary>
    /// <param name="values">The means, three or more.</param>
    /// <param name="divisor">What each value is divided by.</param>
    public static LineMeansVariance OfSecondDifferences(ReadOnlySpan<double> values, double divisor)
    {
        int differences = values.Length - 2;
        double squares = 0;
        for (int i = 1; i <= differences; i++)
        {
            double difference = (values[i] - ((values[i - 1] + values[i + 1]) / 2)) / divisor;
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
}
