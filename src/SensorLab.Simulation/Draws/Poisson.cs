using System.Runtime.CompilerServices;

namespace SensorLab.Simulation.Draws;

/// <summary>Counts of photons that arrive: exact below <see cref="NormalFrom"/>, right in the first three moments from there on.</summary>
/// <remarks>
/// Below 10: inversion by summing the probabilities. To <see cref="NormalFrom"/>: transformed rejection (Hörmann,
/// Insurance: Mathematics and Economics 12 (1993), algorithm PTRS), exact too. Above: a + b·z + c·(z² − 1) of a
/// standard normal z, rounded, with b and c such that mean, variance (rounding's 1/12 included) and third central moment
/// are λ; the fourth differs from Poisson's by a third of 1/λ.
/// </remarks>
internal static class Poisson
{
    /// <summary>The mean from which the normal form serves.</summary>
    public const double NormalFrom = 256;

    private const double RejectionFrom = 10;
    private const double RoundingVariance = 1.0 / 12;

    // 4·c³ with c = 1/6, its value for any large mean.
    private const double CubicTerm = 4.0 / 216;

    private static readonly double[] LogFactorial = BuildLogFactorials(1024);

    /// <summary>The next count.</summary>
    /// <param name="stream">Where the random numbers come from.</param>
    /// <param name="mean">The expected count, 0 or more.</param>
    /// <returns>A whole number, 0 or more.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Next(ref RandomStream stream, double mean)
    {
        if (mean < NormalFrom)
        {
            return mean < RejectionFrom ? ByInversion(ref stream, mean) : ByRejection(ref stream, mean);
        }

        double variance = mean - RoundingVariance;
        double c = (mean + CubicTerm) / (6 * variance);
        double b = Math.Sqrt(variance - (2 * c * c));
        double z = Normal.Next(ref stream);
        return Math.Max(0, Math.Round(mean + (b * z) + (c * ((z * z) - 1))));
    }

    private static double ByInversion(ref RandomStream stream, double mean)
    {
        double probability = Math.Exp(-mean);
        double left = stream.NextUnit() - probability;
        int count = 0;
        while (left >= 0 && probability > 0)
        {
            count++;
            probability *= mean / count;
            left -= probability;
        }

        return count;
    }

    private static double ByRejection(ref RandomStream stream, double mean)
    {
        double b = 0.931 + (2.53 * Math.Sqrt(mean));
        double a = -0.059 + (0.02483 * b);
        double acceptedInside = 0.9277 - (3.6224 / (b - 2));
        while (true)
        {
            double u = stream.NextUnit() - 0.5;
            double v = stream.NextUnit();
            double us = 0.5 - Math.Abs(u);
            double k = Math.Floor((((2 * a / us) + b) * u) + mean + 0.43);
            if (us >= 0.07 && v <= acceptedInside)
            {
                return k;
            }

            if (k < 0 || k >= LogFactorial.Length || (us < 0.013 && v > us))
            {
                continue;
            }

            double inverseAlpha = 1.1239 + (1.1328 / (b - 3.4));
            double bound = (k * Math.Log(mean)) - mean - LogFactorial[(int)k];
            if (Math.Log(v * inverseAlpha / ((a / (us * us)) + b)) <= bound)
            {
                return k;
            }
        }
    }

    private static double[] BuildLogFactorials(int length)
    {
        var table = new double[length];
        for (int i = 1; i < length; i++)
        {
            table[i] = table[i - 1] + Math.Log(i);
        }

        return table;
    }
}
