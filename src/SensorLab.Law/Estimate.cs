namespace SensorLab.Law;

/// <summary>A number with its standard uncertainty, in one unit that the name of its holder tells.</summary>
/// <param name="Value">The estimate.</param>
/// <param name="StandardUncertainty">Its standard uncertainty, 0 or more.</param>
/// <param name="DegreesOfFreedom">What the uncertainty itself rests on; unlimited where it follows from a model or from thousands of pixels.</param>
public readonly record struct Estimate(double Value, double StandardUncertainty, double DegreesOfFreedom = double.PositiveInfinity)
{
    /// <summary>The variance of the estimate.</summary>
    public double Variance => StandardUncertainty * StandardUncertainty;

    /// <summary>The mean of independent estimates, each weighted with the inverse of its variance.</summary>
    /// <param name="estimates">One estimate or more, with uncertainties above 0.</param>
    /// <returns>The weighted mean and its standard uncertainty.</returns>
    /// <exception cref="ArgumentException">There is no estimate.</exception>
    public static Estimate WeightedMean(IReadOnlyList<Estimate> estimates)
    {
        if (estimates.Count == 0)
        {
            throw new ArgumentException("A mean needs one estimate or more.", nameof(estimates));
        }

        double weights = 0;
        double sum = 0;
        foreach (Estimate estimate in estimates)
        {
            double weight = 1 / estimate.Variance;
            weights += weight;
            sum += weight * estimate.Value;
        }

        return new Estimate(sum / weights, Math.Sqrt(1 / weights));
    }
}
