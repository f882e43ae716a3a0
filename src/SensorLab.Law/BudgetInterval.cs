using MathNet.Numerics.Distributions;
using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>The 95 % interval of a sum of independent parts, one of which may be rectangular.</summary>
/// <remarks>
/// Halves of 95 % intervals add in quadrature [ZouDonner2008], and with a rectangular part by the distribution of the sum
/// (JCGM 100:2008, G.1.3 and G.1.5: where one part rules, its form does too). With U rectangular over ±a and N normal with
/// standard deviation s, P(|U + N| ≤ h) = s/(2a)·[G((h+a)/s) − G((h−a)/s) − G((a−h)/s) + G(−(h+a)/s)], G(x) = xΦ(x) + φ(x).
/// </remarks>
internal static class BudgetInterval
{
    private const double Probability = 0.95;

    /// <summary>Halvings of the bracket: to a part in 10⁹ of its width.</summary>
    private const int Halvings = 40;

    /// <summary>Share of the rectangle below which the normal part is none.</summary>
    private const double NoNormal = 1e-6;

    /// <summary>Half of the interval.</summary>
    /// <param name="half95">Half of the 95 % interval of all parts but the rectangular one, 0 or more.</param>
    /// <param name="rectangle">Half of the rectangle's width; 0 without one.</param>
    public static double Half(double half95, double rectangle)
    {
        if (rectangle <= 0)
        {
            return half95;
        }

        double deviation = half95 / Figure.NormalFactor95;
        if (deviation < NoNormal * rectangle)
        {
            return Probability * rectangle;
        }

        (double low, double high) = (0, rectangle + half95);
        for (int i = 0; i < Halvings; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Within(middle, rectangle, deviation) < Probability ? (middle, high) : (low, middle);
        }

        return high;
    }

    private static double Within(double half, double rectangle, double deviation)
    {
        (double sum, double difference) = ((half + rectangle) / deviation, (half - rectangle) / deviation);
        return deviation / (2 * rectangle) * (Integral(sum) - Integral(difference) - Integral(-difference) + Integral(-sum));
    }

    private static double Integral(double x) => (x * Normal.CDF(0, 1, x)) + Normal.PDF(0, 1, x);
}
