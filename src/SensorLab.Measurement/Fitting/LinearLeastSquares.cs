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
