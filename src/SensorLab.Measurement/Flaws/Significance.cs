namespace SensorLab.Measurement.Flaws;

/// <summary>From when on a deviation is no accident.</summary>
internal static class Significance
{
    /// <summary>
    /// Standard deviations beyond which chance is ruled out. A set of ten ISOs and four channels is put to some 800
    /// tests. Even where an uncertainty is 30 % too small, 6 are 4.6 true ones: 4·10⁻⁶ a test, 0.3 % a set.
    /// </summary>
    public const double Deviations = 6;

    /// <summary>How far a sum of squared deviations lies above its expectation.</summary>
    /// <param name="chiSquare">The sum, 0 or more.</param>
    /// <param name="degrees">Its degrees of freedom, above 0.</param>
    /// <returns>Standard deviations of the equivalent normal variate.</returns>
    /// <remarks>Wilson and Hilferty's cube root: good to a tenth of a deviation from three degrees of freedom on.</remarks>
    public static double OfChiSquare(double chiSquare, double degrees)
    {
        double spread = 2 / (9 * degrees);
        return (Math.Cbrt(chiSquare / degrees) - 1 + spread) / Math.Sqrt(spread);
    }
}
