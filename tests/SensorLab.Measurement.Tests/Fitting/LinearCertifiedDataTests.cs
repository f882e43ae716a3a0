using MathNet.Numerics.LinearAlgebra;
using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Tests.Fitting;

/// <summary>Linear least squares against the certified regressions of NIST: estimates and their standard deviations.</summary>
public sealed class LinearCertifiedDataTests
{
    [Theory]
    [InlineData("Norris", 1, true)]
    [InlineData("Pontius", 2, true)]
    [InlineData("NoInt1", 1, false)]
    [InlineData("NoInt2", 1, false)]
    [InlineData("Wampler1", 5, true)]
    [InlineData("Wampler2", 5, true)]
    [InlineData("Wampler3", 5, true)]
    [InlineData("Wampler4", 5, true)]
    [InlineData("Wampler5", 5, true)]
    [InlineData("Filip", 10, true)]
    public void Fit_Polynomial_ReachesTheDigitsOfItsLevel(string name, int degree, bool hasIntercept)
    {
        CertifiedSet data = CertifiedSet.Open(name);
        double[][] rows = data.Rows;
        int first = hasIntercept ? 0 : 1;
        Matrix<double> design = Matrix<double>.Build.Dense(rows.Length, degree + 1 - first, (i, j) => Math.Pow(rows[i][1], j + first));
        AssertCertified(data, design, rows, data.DigitsAsked);
    }

    [Fact]
    public void Fit_Longley_ReachesTheDigitsOfItsLevel()
    {
        CertifiedSet data = CertifiedSet.Open("Longley");
        double[][] rows = data.Rows;
        AssertCertified(data, Matrix<double>.Build.Dense(rows.Length, 7, (i, j) => j == 0 ? 1 : rows[i][j]), rows, data.DigitsAsked);
    }

    private static void AssertCertified(CertifiedSet data, Matrix<double> design, double[][] rows, int digits)
    {
        LinearFit fit = LinearLeastSquares.Fit(design, Vector<double>.Build.Dense(rows.Length, i => rows[i][0]))!;
        double[][] certified = data.Parameters;
        Assert.Equal(design.ColumnCount, certified.Length);
        double least = Enumerable.Range(0, certified.Length).Min(j => Math.Min(
            CertifiedSet.DigitsOrZero(fit.Parameters[j], certified[j][0]),
            CertifiedSet.DigitsOrZero(fit.StandardUncertainty(j), certified[j][1])));
        double residual = CertifiedSet.DigitsOrZero(Math.Sqrt(fit.ResidualVariance), data.Values("residualDeviation")[0]);
        Assert.True(Math.Min(least, residual) >= digits, $"{least:0.0} digits, residual {residual:0.0}, asked {digits}");
    }
}
