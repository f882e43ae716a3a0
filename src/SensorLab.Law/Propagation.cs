using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>Propagates the covariance of parameters to what is computed from them.</summary>
/// <remarks>JCGM 100:2008 (GUM), equation 13, with sensitivity coefficients from central differences.</remarks>
internal static class Propagation
{
    /// <summary>Coverage factor for the largest of several deviations: what noise alone exceeds in 5 % of cases (Šidák).</summary>
    /// <param name="count">How many deviations, 1 or more.</param>
    public static double CoverageOfLargest(int count) => Normal.InvCDF(0, 1, (1 + Math.Pow(0.95, 1.0 / count)) / 2);

    /// <summary>A parameter is moved by this share of its uncertainty to find a sensitivity: small against curvature, large against rounding.</summary>
    private const double StepShare = 0.01;

    /// <summary>Degrees of freedom from which Student's factor is the normal one to within 0.02 %, and nothing is said of them.</summary>
    private const double ManyDegrees = 1e4;

    /// <summary>Evaluates a function of parameters.</summary>
    /// <param name="function">The function; NaN where it has no value.</param>
    /// <param name="parameters">Parameters.</param>
    /// <param name="parts">Their covariance, in independent parts.</param>
    /// <returns>
    /// Value, standard uncertainty and effective degrees of freedom, or null where the function has no value at or near
    /// the parameters. Degrees of freedom are those of the parts (GUM, equation G.2b), which are independent where
    /// parameters are not; never fewer than the scarcest part has, where an error that two parts know of cancels.
    /// </returns>
    public static Estimate? Of(Func<double[], double> function, IReadOnlyList<double> parameters, IReadOnlyList<CovariancePart> parts)
    {
        double[] at = [.. parameters];
        double value = function(at);
        Vector<double> gradient = Vector<double>.Build.Dense(at.Length);
        for (int i = 0; i < at.Length; i++)
        {
            double step = StepShare * Math.Sqrt(parts.Sum(p => p.Covariance[i, i]));
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
        double fourths = 0;
        foreach (CovariancePart part in parts)
        {
            double own = gradient * part.Covariance * gradient;
            variance += own;
            fourths += own * own / part.DegreesOfFreedom;
        }

        double degrees = fourths > 0 ? Math.Max(variance * variance / fourths, parts.Min(p => p.DegreesOfFreedom)) : double.PositiveInfinity;
        return double.IsFinite(value) && double.IsFinite(variance) ? new Estimate(value, Math.Sqrt(Math.Max(0, variance)), degrees) : null;
    }

    /// <summary>A figure with a symmetric 95 % interval.</summary>
    public static Figure? ToFigure(this Estimate? estimate) => estimate?.ToFigure();

    /// <summary>A figure with a symmetric 95 % interval, Student's where degrees of freedom are few.</summary>
    public static Figure ToFigure(this Estimate estimate)
    {
        double half = StudentTail.Factor95(estimate.DegreesOfFreedom) * estimate.StandardUncertainty;
        return Figure.Estimate(estimate.Value, estimate.StandardUncertainty, estimate.Value - half, estimate.Value + half, Published(estimate.DegreesOfFreedom));
    }

    /// <summary>
    /// The square root of an estimated square, times a factor: an interval that holds near zero, an upper bound at or below
    /// it. No square is negative: one that came out so says no more than one that came out zero, or the bound itself
    /// would shrink to nothing.
    /// </summary>
    /// <param name="square">
    /// The estimated square; an unbiased one may be negative. With few degrees of freedom ν it is taken for a variance V
    /// that follows χ² with ν, less a known part: V = u·√(ν/2), which for a variance alone is its own interval.
    /// </param>
    /// <param name="factor">What the root is multiplied with.</param>
    public static Figure ToRootFigure(this Estimate square, double factor = 1)
    {
        if (square.Value <= 0)
        {
            return Figure.UpperBound(factor * Math.Sqrt(SquareInterval(square with { Value = 0 }).High));
        }

        (double low, double high) = SquareInterval(square);
        double upper = factor * Math.Sqrt(high);
        double root = factor * Math.Sqrt(square.Value);
        double lower = factor * Math.Sqrt(Math.Max(0, low));
        double half = (upper - lower) / (2 * StudentTail.Factor95(square.DegreesOfFreedom));
        double uncertainty = Math.Min(factor * factor * square.StandardUncertainty / (2 * root), half);
        return Figure.Estimate(root, uncertainty, Math.Min(lower, root), Math.Max(upper, root), Published(square.DegreesOfFreedom));
    }

    private static (double Low, double High) SquareInterval(Estimate square)
    {
        double degrees = square.DegreesOfFreedom;
        if (!(degrees < ManyDegrees))
        {
            double half = Figure.NormalFactor95 * square.StandardUncertainty;
            return (square.Value - half, square.Value + half);
        }

        double variance = square.StandardUncertainty * Math.Sqrt(degrees / 2);
        double known = variance - square.Value;
        return ((variance * degrees / ChiSquared.InvCDF(degrees, 0.975)) - known, (variance * degrees / ChiSquared.InvCDF(degrees, 0.025)) - known);
    }

    /// <summary>What a figure says of its degrees of freedom: whole tenths, or nothing where there are so many that they change no interval.</summary>
    /// <param name="degrees">The degrees of freedom; unlimited for what rests on a model.</param>
    public static double? Published(double degrees) => degrees < ManyDegrees ? Math.Round(degrees, 1) : null;
}
