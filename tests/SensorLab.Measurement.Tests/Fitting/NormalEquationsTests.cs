using MathNet.Numerics.LinearAlgebra;
using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Tests.Fitting;

public sealed class NormalEquationsTests
{
    /// <summary>Digits of a covariance that serve for a step: uncertainties are given to three.</summary>
    private const double DigitsOfStep = 6;

    [Theory]
    [InlineData("Norris", 1, true)]
    [InlineData("Pontius", 2, true)]
    [InlineData("NoInt1", 1, false)]
    [InlineData("NoInt2", 1, false)]
    public void Solve_CertifiedSet_ASecondStepReachesTheDigitsOfItsLevel(string name, int degree, bool hasIntercept)
    {
        CertifiedSet data = CertifiedSet.Open(name);
        int first = hasIntercept ? 0 : 1;
        (int Column, double Value)[][] design = [.. data.Rows.Select(r => Enumerable.Range(first, degree + 1 - first).Select(j => (j - first, Math.Pow(r[1], j))).ToArray())];
        int parameters = degree + 1 - first;

        LinearFit one = NormalEquations.Solve(design, Vector<double>.Build.Dense(data.Rows.Length, i => data.Rows[i][0]), parameters)!;
        LinearFit two = NormalEquations.Solve(design, one.Residuals, parameters)!;

        for (int j = 0; j < parameters; j++)
        {
            double[] certified = data.Parameters[j];
            Assert.True(CertifiedSet.DigitsOrZero(one.Parameters[j] + two.Parameters[j], certified[0]) >= data.DigitsAsked);
            Assert.True(CertifiedSet.DigitsOrZero(one.StandardUncertainty(j), certified[1]) >= DigitsOfStep);
        }
    }

    [Fact]
    public void Solve_SparseRows_AgreesWithQr()
    {
        // Two lines that share one slope: x of the first, x of the second, an intercept each.
        (int Column, double Value)[][] design = [.. Enumerable.Range(0, 12).Select(i => new[] { (i % 2, 1.0), (2, 0.3 * i * i) })];
        Vector<double> observed = Vector<double>.Build.Dense(12, i => Math.Sin(i) + (2 * i));
        Matrix<double> dense = Matrix<double>.Build.Dense(12, 3);
        for (int i = 0; i < 12; i++)
        {
            foreach ((int column, double value) in design[i])
            {
                dense[i, column] = value;
            }
        }

        LinearFit sparse = NormalEquations.Solve(design, observed, 3)!;
        LinearFit exact = LinearLeastSquares.Fit(dense, observed)!;

        Assert.True((sparse.Parameters - exact.Parameters).L2Norm() < 1e-11 * exact.Parameters.L2Norm());
        Assert.True((sparse.UnitCovariance - exact.UnitCovariance).FrobeniusNorm() < 1e-11 * exact.UnitCovariance.FrobeniusNorm());
        Assert.Equal(exact.ResidualSquares, sparse.ResidualSquares, 1e-9);
        Assert.Equal(9, sparse.DegreesOfFreedom);
    }

    [Fact]
    public void Solve_ParameterThatNoRowTells_IsNull()
    {
        (int Column, double Value)[][] design = [[(0, 1.0)], [(0, 2.0)], [(0, 3.0), (1, 0.0)]];
        Assert.Null(NormalEquations.Solve(design, Vector<double>.Build.Dense([1, 2, 3]), 2));
    }

    [Fact]
    public void Solve_FewerRowsThanParameters_IsNull() =>
        Assert.Null(NormalEquations.Solve([[(0, 1.0), (1, 2.0)]], Vector<double>.Build.Dense([1]), 2));
}
