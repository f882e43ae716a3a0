using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace SensorLab.Measurement.Fitting;

/// <summary>Linear least squares by Householder's QR of the scaled design, refined with residuals of twice the precision.</summary>
/// <remarks>
/// Columns are scaled to unit length. Parameters and residuals are refined together (Björck's augmented system r + X·b = y,
/// Xᵀ·r = 0), its misfits summed with error-free sums and products (Dekker, Møller), so that large residuals cost no digits.
/// </remarks>
internal static class LinearLeastSquares
{
    private const int Refinements = 3;

    /// <summary>Fits y = X·b.</summary>
    /// <param name="design">X: observations × parameters, at least as many observations as parameters.</param>
    /// <param name="observed">y, one value an observation, of equal variance.</param>
    /// <returns>The fit; null where the observations do not determine the parameters.</returns>
    public static LinearFit? Fit(Matrix<double> design, Vector<double> observed)
    {
        int parameters = design.ColumnCount;
        if (design.RowCount < parameters)
        {
            return null;
        }

        double[] norms = [.. Enumerable.Range(0, parameters).Select(j => design.Column(j).L2Norm())];
        if (norms.Any(n => !(n > 0) || !double.IsFinite(n)))
        {
            return null;
        }

        Matrix<double> scaled = Matrix<double>.Build.Dense(design.RowCount, parameters, (i, j) => design[i, j] / norms[j]);
        QR<double> factors = SmallQr.Of(scaled);
        Vector<double> lengths = Vector<double>.Build.Dense(norms);
        Vector<double> at = factors.Solve(observed).PointwiseDivide(lengths);
        Vector<double> residuals = Residuals(design, observed, at, Vector<double>.Build.Dense(design.RowCount));
        for (int i = 0; i < Refinements; i++)
        {
            Vector<double> missing = Residuals(design, observed, at, residuals);
            Vector<double> slope = Projections(design, residuals).PointwiseDivide(lengths);
            Vector<double> lower = factors.R.Transpose().Solve(slope);
            Vector<double> inside = factors.Q.TransposeThisAndMultiply(missing) + lower;
            at += factors.R.Solve(inside).PointwiseDivide(lengths);
            residuals += missing - (factors.Q * inside);
        }

        Matrix<double> inverse = factors.R.SubMatrix(0, parameters, 0, parameters).Inverse();
        Matrix<double> covariance = Matrix<double>.Build.Dense(parameters, parameters, (i, j) =>
            Enumerable.Range(0, parameters).Sum(k => inverse[i, k] * inverse[j, k]) / (norms[i] * norms[j]));
        return at.All(double.IsFinite) && covariance.Enumerate().All(double.IsFinite)
            ? new LinearFit(at, covariance, residuals, design.RowCount - parameters)
            : null;
    }

    /// <summary>y − r − X·b: what the residuals and parameters together still leave.</summary>
    private static Vector<double> Residuals(Matrix<double> design, Vector<double> observed, Vector<double> at, Vector<double> residuals) =>
        Vector<double>.Build.Dense(design.RowCount, row => Sum(
            [observed[row], -residuals[row]],
            Enumerable.Range(0, at.Count).Select(j => (-design[row, j], at[j]))));

    /// <summary>Xᵀ·r, which is zero at the solution.</summary>
    private static Vector<double> Projections(Matrix<double> design, Vector<double> residuals) =>
        Vector<double>.Build.Dense(design.ColumnCount, j => Sum([], Enumerable.Range(0, design.RowCount).Select(i => (design[i, j], residuals[i]))));

    /// <summary>A sum of terms and products with twice the precision until its end.</summary>
    private static double Sum(double[] terms, IEnumerable<(double First, double Second)> products)
    {
        double high = 0;
        double low = 0;
        void Add(double term)
        {
            double sum = high + term;
            double part = sum - high;
            low += (high - (sum - part)) + (term - part);
            high = sum;
        }

        foreach (double term in terms)
        {
            Add(term);
        }

        foreach ((double first, double second) in products)
        {
            double product = first * second;
            Add(product);
            low += Math.FusedMultiplyAdd(first, second, -product);
        }

        return high + low;
    }
}

/// <summary>The outcome of a linear least-squares fit.</summary>
/// <param name="Parameters">The parameters, in the order of the design's columns.</param>
/// <param name="UnitCovariance">Their covariance where every observation has variance 1: (XᵀX)⁻¹.</param>
/// <param name="Residuals">Observed less fitted.</param>
/// <param name="DegreesOfFreedom">Observations less parameters.</param>
internal sealed record LinearFit(Vector<double> Parameters, Matrix<double> UnitCovariance, Vector<double> Residuals, int DegreesOfFreedom)
{
    /// <summary>Sum of squared residuals.</summary>
    public double ResidualSquares => Residuals.Sum(r => r * r);

    /// <summary>Variance of an observation as the residuals show it; 0 without degrees of freedom.</summary>
    public double ResidualVariance => DegreesOfFreedom > 0 ? ResidualSquares / DegreesOfFreedom : 0;

    /// <summary>A parameter's standard uncertainty, the observations' variance taken from the residuals.</summary>
    /// <param name="parameter">Index of the parameter.</param>
    public double StandardUncertainty(int parameter) => Math.Sqrt(ResidualVariance * UnitCovariance[parameter, parameter]);
}
