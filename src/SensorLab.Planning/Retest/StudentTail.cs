using MathNet.Numerics.Distributions;

namespace SensorLab.Planning.Retest;

/// <summary>Student's t, from one degree of freedom to the normal distribution.</summary>
internal static class StudentTail
{
    /// <summary>Degrees of freedom from which the normal distribution is the same to within 1 % of a tail of 10⁻⁴.</summary>
    private const double Many = 20_000;

    /// <summary>The probability of exceeding a deviation.</summary>
    public static double Above(double deviations, double degreesOfFreedom) => double.IsNegativeInfinity(deviations) ? 1
        : double.IsPositiveInfinity(deviations) ? 0
        : degreesOfFreedom > Many ? Normal.CDF(0, 1, -deviations) : StudentT.CDF(0, 1, Math.Max(1, degreesOfFreedom), -deviations);

    /// <summary>The deviation that is exceeded with a probability, between 0 and 0.5.</summary>
    public static double Quantile(double probability, double degreesOfFreedom) =>
        degreesOfFreedom > Many ? -Normal.InvCDF(0, 1, probability) : -StudentT.InvCDF(0, 1, Math.Max(1, degreesOfFreedom), probability);
}
