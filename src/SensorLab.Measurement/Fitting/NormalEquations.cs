using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Fitting;

/// <summary>Linear least squares of sparse rows by their normal equations, for the steps of an iteration.</summary>
/// <remarks>
/// Columns are scaled to unit length. What squaring the condition costs in digits is lost from a step, which the next one
/// makes good, and from the covariance, of which three digits are plenty. A single fit is <see cref="LinearLeastSquares"/>'s.
/// </remarks>
internal static class NormalEquations
{
    /// <summary>Fits y = X·b.</summary>
    /// <param name="design">The rows of X: columns and what stands in them.</param>
    /// <param name="observed">y, one value a row, of equal variance.</param>
    /// <param name="parameters">Number of columns.</param>
    /// <returns>The fit; null where the rows do not determine the parameters.</returns>
    public static LinearFit? Solve(IReadOnlyList<IReadOnlyList<(int Column, double Value)>> design, Vector<double> observed, int parameters)
    {
        if (design.Count < parameters)
        {
            return null;
        }

        double[] lengths = new double[parameters];
        foreach ((int column, double value) in design.SelectMany(row => row))
        {
            lengths[column] = double.Hypot(lengths[column], value);
        }

        if (lengths.Any(l => !(l > 0) || !double.IsFinite(l)))
        {
            return null;
        }

        Matrix<double> normal = Matrix<double>.Build.Dense(parameters, parameters);
        Vector<double> slope = Vector<double>.Build.Dense(parameters);
        for (int i = 0; i < design.Count; i++)
        {
            foreach ((int first, double value) in design[i])
            {
                double scaled = value / lengths[first];
                slope[first] += scaled * observed[i];
                foreach ((int second, double other) in design[i])
                {
                    normal[first, second] += scaled * other / lengths[second];
                }
            }
        }

        Matrix<double> covariance = normal.Inverse();
        Vector<double> fitted = (covariance * slope).PointwiseDivide(Vector<double>.Build.Dense(lengths));
        covariance.MapIndexedInplace((i, j, c) => c / (lengths[i] * lengths[j]));
        if (!fitted.All(double.IsFinite) || !covariance.Enumerate().All(double.IsFinite) || covariance.Diagonal().Any(v => v <= 0))
        {
            return null;
        }

        Vector<double> residuals = Vector<double>.Build.Dense(design.Count, i => observed[i] - design[i].Sum(s => s.Value * fitted[s.Column]));
        return new LinearFit(fitted, covariance, residuals, design.Count - parameters);
    }
}
