using MathNet.Numerics.Distributions;
using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>Student's t, from one degree of freedom to the normal distribution.</summary>
public static class StudentTail
{
    /// <summary>Degrees of freedom from which the normal distribution is the same to within 1 % of a tail of 10⁻⁴.</summary>
    private const double Many = 20_000;

    /// <summary>Degrees of freedom from which the expansion about the normal distribution is a good beginning.</summary>
    private const double Some = 8;

    /// <summary>Newton's steps that a good beginning needs at most.</summary>
    private const int FewSteps = 6;

    /// <summary>Halving alone gets to the last digit of a double in so many steps.</summary>
    private const int MostSteps = 60;

    /// <summary>Relative precision of a quantile: beyond what any interval prints, short of where the tail's own rounding shows.</summary>
    private const double Precision = 1e-13;

    /// <summary>The probability of exceeding half of a 95 % interval.</summary>
    private const double Beyond95 = 0.025;

    /// <summary>Half of a 95 % interval over its standard uncertainty.</summary>
    /// <param name="degreesOfFreedom">What the uncertainty rests on, 1 or more; unlimited for the normal distribution.</param>
    /// <remarks>JCGM 100:2008 (GUM), G.3.2.</remarks>
    public static double Factor95(double degreesOfFreedom) =>
        degreesOfFreedom > Many ? Figure.NormalFactor95 : Quantile(Beyond95, degreesOfFreedom);

    /// <summary>The probability of exceeding a deviation.</summary>
    /// <param name="deviations">The deviation in standard uncertainties.</param>
    /// <param name="degreesOfFreedom">What the uncertainty rests on; below 1 is taken for 1.</param>
    public static double Above(double deviations, double degreesOfFreedom) => double.IsNegativeInfinity(deviations) ? 1
        : double.IsPositiveInfinity(deviations) ? 0
        : degreesOfFreedom > Many ? Normal.CDF(0, 1, -deviations) : StudentT.CDF(0, 1, Math.Max(1, degreesOfFreedom), -deviations);

    /// <summary>The deviation that is exceeded with a probability.</summary>
    /// <param name="probability">Above 0 and below 0.5.</param>
    /// <param name="degreesOfFreedom">What the uncertainty rests on; below 1 is taken for 1.</param>
    /// <returns>The deviation in standard uncertainties.</returns>
    /// <remarks>
    /// Newton's steps on the logarithm of the tail, kept between bounds by halving: the library's own root finder gives up at
    /// some degrees of freedom.
    /// </remarks>
    public static double Quantile(double probability, double degreesOfFreedom) =>
        NearNormal(probability, degreesOfFreedom) ?? Bracketed(probability, degreesOfFreedom);

    // From the normal's quantile and the first terms of its expansion in 1/ν a step or two are enough; null where they are not.
    private static double? NearNormal(double probability, double degreesOfFreedom)
    {
        if (degreesOfFreedom < Some)
        {
            return null;
        }

        double z = -Normal.InvCDF(0, 1, probability);
        double at = z + (((z * z) + 1) * z / (4 * degreesOfFreedom)) + (((((5 * z * z) + 16) * z * z) + 3) * z / (96 * degreesOfFreedom * degreesOfFreedom));
        for (int i = 0; i < FewSteps && at > 0; i++)
        {
            double above = Above(at, degreesOfFreedom);
            double step = Math.Log(above / probability) * above / Density(at, degreesOfFreedom);
            at += step;
            if (Math.Abs(step) < Precision * at)
            {
                return at;
            }
        }

        return null;
    }

    private static double Bracketed(double probability, double degreesOfFreedom)
    {
        double high = 1;
        while (Above(high, degreesOfFreedom) > probability)
        {
            high *= 2;
        }

        double low = high > 1 ? high / 2 : 0;
        double at = (low + high) / 2;
        for (int i = 0; i < MostSteps && high - low > Precision * high; i++)
        {
            double above = Above(at, degreesOfFreedom);
            (low, high) = above > probability ? (at, high) : (low, at);
            double step = Math.Log(above / probability) * above / Density(at, degreesOfFreedom);
            double next = at + step;
            if (Math.Abs(step) < Precision * at)
            {
                return next;
            }

            at = next > low && next < high ? next : (low + high) / 2;
        }

        return at;
    }

    private static double Density(double deviations, double degreesOfFreedom) =>
        degreesOfFreedom > Many ? Normal.PDF(0, 1, deviations) : StudentT.PDF(0, 1, Math.Max(1, degreesOfFreedom), deviations);
}
