using MathNet.Numerics.LinearAlgebra;
using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Tests.Fitting;

/// <summary>The hardest certified sets of NIST: at least six digits of the estimates and of their standard deviations.</summary>
public sealed class HigherLevelCertifiedDataTests
{
    private const int DigitsAsked = 6;

    [Fact]
    public void LinearFit_TenthDegree_ReachesSixDigits()
    {
        (double[] y, double[] x) = Columns(TypedCertifiedData.Filip);
        double[][] certified = TypedCertifiedData.FilipCertified;
        LinearFit fit = LinearLeastSquares.Fit(
            Matrix<double>.Build.Dense(x.Length, certified.Length, (i, j) => Math.Pow(x[i], j)),
            Vector<double>.Build.Dense(y))!;
        for (int j = 0; j < certified.Length; j++)
        {
            AssertDigits(fit.Parameters[j], certified[j][0]);
            AssertDigits(fit.StandardUncertainty(j), certified[j][1]);
        }
    }

    [Fact]
    public void NonlinearFit_Mgh10FromEitherStart_ReachesSixDigits() => AssertBothStarts(
        TypedCertifiedData.Mgh10,
        TypedCertifiedData.Mgh10Certified,
        (b, x) => b[0] * Math.Exp(b[1] / (x + b[2])));

    [Fact]
    public void NonlinearFit_ThurberFromEitherStart_ReachesSixDigits() => AssertBothStarts(
        TypedCertifiedData.Thurber,
        TypedCertifiedData.ThurberCertified,
        (b, x) => (b[0] + (b[1] * x) + (b[2] * x * x) + (b[3] * x * x * x)) / (1 + (b[4] * x) + (b[5] * x * x) + (b[6] * x * x * x)));

    private static void AssertBothStarts(double[] data, double[][] certified, Func<Vector<double>, double, double> model)
    {
        (double[] y, double[] x) = Columns(data);
        for (int start = 0; start < 2; start++)
        {
            NonlinearFit fit = NonlinearLeastSquares.Fit(b => Vector<double>.Build.Dense(x.Length, i => y[i] - model(b, x[i])), [.. certified.Select(c => c[start])])!;
            Assert.True(fit.Converged, $"start {start + 1} did not converge");
            for (int j = 0; j < certified.Length; j++)
            {
                AssertDigits(fit.Parameters[j], certified[j][2]);
                AssertDigits(fit.StandardUncertainty(j), certified[j][3]);
            }
        }
    }

    private static (double[] Y, double[] X) Columns(double[] data) =>
        ([.. data.Where((_, i) => i % 2 == 0)], [.. data.Where((_, i) => i % 2 == 1)]);

    private static void AssertDigits(double computed, double certified) =>
        Assert.True(NistData.Digits(computed, certified) >= DigitsAsked, $"{NistData.Digits(computed, certified):0.0} digits of {certified}");
}
