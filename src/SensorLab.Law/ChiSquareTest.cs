namespace SensorLab.Law;

/// <summary>Sums of squared deviations.</summary>
internal static class ChiSquareTest
{
    /// <summary>How far a sum of squared deviations lies above its expectation.</summary>
    /// <param name="chiSquare">The sum, 0 or more.</param>
    /// <param name="degrees">Its degrees of freedom, above 0.</param>
    /// <returns>Standard deviations of the equivalent normal variate.</returns>
    /// <remarks>Wilson and Hilferty's cube root: good to a tenth of a deviation from three degrees of freedom on.</remarks>
    public static double Deviations(double chiSquare, double degrees)
    {
        double spread = 2 / (9 * degrees);
        return (Math.Cbrt(chiSquare / degrees) - 1 + spread) / Math.Sqrt(spread);
    }
}
