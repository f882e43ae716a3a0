using System.Runtime.CompilerServices;

namespace SensorLab.Simulation.Draws;

/// <summary>Counts of photons that arrive: exact below <see cref="NormalFrom"/>, right in the first three moments from there on.</summary>
/// <remarks>
/// Below: a tabulated Poisson number of a mean just below, and one of the small rest by inversion; sums of Poisson numbers
/// are Poisson. Above: a + b·z + c·(z² − 1) of a standard normal z, rounded, with b and c such that mean, variance
/// (rounding's 1/12 included) and third central moment are λ; the excess of the fourth is 4/3 of Poisson's 1/λ.
/// </remarks>
internal static class Poisson
{
    /// <summary>The mean from which the normal form serves.</summary>
    public const double NormalFrom = PoissonTables.End;

    private const double RoundingVariance = 1.0 / 12;

    // 4·c³ with c = 1/6, its value for any large mean.
    private const double CubicTerm = 4.0 / 216;

    /// <summary>The next count.</summary>
    /// <param name="stream">Where the random numbers come from.</param>
    /// <param name="mean">The expected count, 0 or more.</param>
    /// <returns>A whole number, 0 or more.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Next(ref RandomStream stream, double mean)
    {
        if (mean >= NormalFrom)
        {
            double variance = mean - RoundingVariance;
            double c = (mean + CubicTerm) / (6 * variance);
            double b = Math.Sqrt(variance - (2 * c * c));
            double z = Normal.Next(ref stream);
            return Math.Max(0, Math.Round(mean + (b * z) + (c * ((z * z) - 1))));
        }

        if (mean >= PoissonTables.Smallest)
        {
            int most = PoissonTables.Next(ref stream, mean, out double rest);
            return most + ByInversion(ref stream, rest);
        }

        return ByInversion(ref stream, mean);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int ByInversion(ref RandomStream stream, double mean)
    {
        // e^−λ is 1 − λ or more: most draws of a small mean need no more than this.
        double u = stream.NextUnit();
        return u < 1 - mean ? 0 : BySearch(u, mean);
    }

    private static int BySearch(double u, double mean)
    {
        double probability = Math.Exp(-mean);
        double left = u - probability;
        int count = 0;
        while (left >= 0 && probability > 0)
        {
            count++;
            probability *= mean / count;
            left -= probability;
        }

        return count;
    }
}
