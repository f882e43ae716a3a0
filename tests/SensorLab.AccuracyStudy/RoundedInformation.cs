using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.AccuracyStudy;

/// <summary>The Fisher information of one pixel's rounded dark codes on black, temporal variance and pattern variance; the lowest code stands for all below it.</summary>
internal static class RoundedInformation
{
    private const int CodesEachSide = 1;

    /// <summary>Standard deviations above black up to which codes count one by one.</summary>
    private const double CodesReach = 3.5;

    private const int Nodes = 41;
    private const double Reach = 5;

    public static Matrix<double> OfPixel(double blackDn, double temporalDn2, double patternDn2, int frames)
    {
        double[] at = [blackDn, temporalDn2, patternDn2];
        double[] steps = [1e-4, 1e-3 * temporalDn2, 1e-2 * patternDn2];
        int reach = (int)Math.Ceiling(CodesReach * Math.Sqrt(temporalDn2 + patternDn2));
        int first = Math.Max(0, (int)Math.Floor(blackDn) - Math.Max(CodesEachSide, reach));
        int codes = (int)Math.Floor(blackDn) + Math.Max(CodesEachSide, reach) + 2 - first;
        double[] probabilities = Combinations(at, first, codes, frames);
        double[][] slopes = [.. at.Select((_, i) => Slope(at, i, steps[i], first, codes, frames))];
        return Matrix<double>.Build.Dense(3, 3, (i, j) => Enumerable.Range(0, probabilities.Length)
            .Where(k => probabilities[k] > 1e-15)
            .Sum(k => slopes[i][k] * slopes[j][k] / probabilities[k]));
    }

    private static double[] Slope(double[] at, int parameter, double step, int first, int codes, int frames)
    {
        double[] up = [.. at];
        double[] down = [.. at];
        up[parameter] += step;
        down[parameter] -= step;
        return [.. Combinations(up, first, codes, frames).Zip(Combinations(down, first, codes, frames), (u, d) => (u - d) / (2 * step))];
    }

    /// <summary>The probability of every combination of codes in the frames, the pixel's offset integrated out.</summary>
    private static double[] Combinations(double[] parameters, int first, int codes, int frames)
    {
        double[] sum = new double[(int)Math.Pow(codes, frames)];
        double weights = 0;
        for (int node = 0; node < Nodes; node++)
        {
            double z = Reach * ((2.0 * node / (Nodes - 1)) - 1);
            double weight = Math.Exp(-z * z / 2);
            double mean = parameters[0] + (z * Math.Sqrt(parameters[2]));
            double deviation = Math.Sqrt(parameters[1]);
            double[] edges = [0, .. Enumerable.Range(first, codes - 1).Select(code => Normal.CDF(mean, deviation, code + 0.5)), 1];
            double[] share = [.. Enumerable.Range(0, codes).Select(i => edges[i + 1] - edges[i])];
            for (int k = 0; k < sum.Length; k++)
            {
                double product = weight;
                for (int frame = 0, rest = k; frame < frames; frame++, rest /= codes)
                {
                    product *= share[rest % codes];
                }

                sum[k] += product;
            }

            weights += weight;
        }

        return Array.ConvertAll(sum, s => s / weights);
    }
}
