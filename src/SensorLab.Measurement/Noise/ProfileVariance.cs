namespace SensorLab.Measurement.Noise;

/// <summary>The variance of a profile of row or column values that a smooth course does not reach.</summary>
/// <param name="Value">Variance of one value about its neighbours' course.</param>
/// <param name="StandardUncertainty">Its standard uncertainty.</param>
internal readonly record struct ProfileVariance(double Value, double StandardUncertainty)
{
    /// <summary>Var(x₀ − (x₋₁ + x₁)/2) of white noise of unit variance.</summary>
    private const double SecondDifferenceVariance = 1.5;

    /// <summary>How many second differences weigh as much as one degree of freedom: Σγ²/γ₀² of their autocovariance (1.5, −1, 0.25).</summary>
    private const double DifferencesADegree = 4.375 / (SecondDifferenceVariance * SecondDifferenceVariance);

    /// <summary>Variance from second differences: shading, gradients and bands wider than a few rows drop out.</summary>
    /// <param name="values">The profile, three values or more.</param>
    /// <param name="divisor">What each value is divided by.</param>
    public static ProfileVariance OfSecondDifferences(ReadOnlySpan<double> values, double divisor)
    {
        int differences = values.Length - 2;
        double squares = 0;
        for (int i = 1; i <= differences; i++)
        {
            double difference = (values[i] - ((values[i - 1] + values[i + 1]) / 2)) / divisor;
            squares += difference * difference;
        }

        double variance = squares / (SecondDifferenceVariance * differences);
        return new ProfileVariance(variance, variance * Math.Sqrt(2 * DifferencesADegree / differences));
    }

    /// <summary>Variance about the mean.</summary>
    /// <param name="values">The profile, two values or more.</param>
    /// <param name="divisor">What each value is divided by.</param>
    public static ProfileVariance AboutMean(ReadOnlySpan<double> values, double divisor)
    {
        double sum = 0;
        double squares = 0;
        foreach (double value in values)
        {
            double scaled = value / divisor;
            sum += scaled;
            squares += scaled * scaled;
        }

        double degrees = values.Length - 1;
        double variance = Math.Max(0, squares - (sum * sum / values.Length)) / degrees;
        return new ProfileVariance(variance, variance * Math.Sqrt(2 / degrees));
    }

    /// <summary>The mean of the variances of independent profiles.</summary>
    /// <param name="profiles">One profile or more.</param>
    public static ProfileVariance Mean(IReadOnlyCollection<ProfileVariance> profiles) => new(
        profiles.Average(p => p.Value),
        Math.Sqrt(profiles.Sum(p => p.StandardUncertainty * p.StandardUncertainty)) / profiles.Count);
}
