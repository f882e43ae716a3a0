using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Uncertainty;

/// <summary>Propagates the covariance of parameters to what is computed from them.</summary>
/// <remarks>JCGM 100:2008 (GUM), equation 13, with sensitivity coefficients from central differences.</remarks>
internal static class Propagation
{
    /// <summary>Coverage factor of a 95 % interval for a normal distribution.</summary>
    public const double Coverage95 = 1.959963984540054;

    /// <summary>Coverage factor for the largest of several deviations: what noise alone exceeds in 5 % of cases (Šidák).</summary>
    /// <param name="count">How many deviations, 1 or more.</param>
    public static double CoverageOfLargest(int count) => Normal.InvCDF(0, 1, (1 + Math.Pow(0.95, 1.0 / count)) / 2);

    /// <summary>A parameter is moved by this share of its uncertainty to find a sensitivity: small against curvature, large against rounding.</summary>
    private const double StepShare = 0.01;

    /// <summary>Evaluates a function of parameters.</summary>
    /// <param name="function">The function; NaN where it has no value.</param>
    /// <param name="parameters">Parameters.</param>
    /// <param name="covariance">Their covariance, symmetric.</param>
    /// <returns>Value and standard uncertainty, or null where the function has no value at or near the parameters.</returns>
    public static Estimate? Of(Func<double[], double> function, IReadOnlyList<double> parameters, Matrix<double> covariance)
    {
        double[] at = [.. parameters];
        double value = function(at);
        double[] gradient = new double[at.Length];
        for (int i = 0; i < at.Length; i++)
        {
            double step = StepShare * Math.Sqrt(covariance[i, i]);
            if (step > 0)
            {
                double centre = at[i];
                at[i] = centre + step;
                double up = function(at);
                at[i] = centre - step;
                double down = function(at);
                at[i] = centre;
                gradient[i] = (up - down) / (2 * step);
            }
        }

        double variance = 0;
        for (int i = 0; i < at.Length; i++)
        {
            for (int j = 0; j < at.Length; j++)
            {
                variance += gradient[i] * covariance[i, j] * gradient[j];
            }
        }

        return double.IsFinite(value) && double.IsFinite(variance) ? new Estimate(value, Math.Sqrt(Math.Max(0, variance))) : null;
    }

    /// <summary>A figure with a symmetric 95 % interval.</summary>
    public static Figure? ToFigure(this Estimate? estimate) => estimate?.ToFigure();

    /// <summary>A figure with a symmetric 95 % interval.</summary>
    public static Figure ToFigure(this Estimate estimate)
    {
        double half = Coverage95 * estimate.StandardUncertainty;
        return Figure.Estimate(estimate.Value, estimate.StandardUncertainty, estimate.Value - half, estimate.Value + half);
    }

    /// <summary>The square root of an estimated square, times a factor: an interval that holds near zero, an upper bound at or below it.</summary>
    /// <param name="square">The estimated square; an unbiased one may be negative.</param>
    /// <param name="factor">What the root is multiplied with.</param>
    public static Figure ToRootFigure(this Estimate square, double factor = 1)
    {
        double half = Coverage95 * square.StandardUncertainty;
        double upper = factor * Math.Sqrt(Math.Max(0, square.Value + half));
        if (square.Value <= 0)
        {
            return Figure.UpperBound(upper);
        }

        double root = factor * Math.Sqrt(square.Value);
        double lower = factor * Math.Sqrt(Math.Max(0, square.Value - half));
        double uncertainty = Math.Min(factor * factor * square.StandardUncertainty / (2 * root), (upper - lower) / (2 * Coverage95));
        return Figure.Estimate(root, uncertainty, Math.Min(lower, root), Math.Max(upper, root));
    }
}
