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

    /// <summary>By what factor what is fitted to points has more variance than they say, where they scatter by more than chance; 1 where chance may do it.</summary>
    /// <param name="chiSquare">Their squared deviations over their variances, 0 or more.</param>
    /// <param name="degrees">Degrees of freedom; with 0 points tell nothing.</param>
    public static double ScatterFactor(double chiSquare, double degrees) =>
        degrees > 0 && Deviations(chiSquare, degrees) > Significance.Scattered ? chiSquare / degrees : 1;
}
