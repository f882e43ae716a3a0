using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.RootFinding;
using SensorLab.Law;

namespace SensorLab.Measurement.Tests.Model;

public sealed class NoiseModelTests
{
    /// <summary>K = 0.4, variance without light 2.5 + 0.1, DSNU² 0.3, PRNU 0.6 %, black 512, clip at 16383.</summary>
    private static readonly NoiseModel Model = NoiseModel.Empty
        .With(NoiseParameter.BlackDn, new Estimate(512, 0.01))
        .With(NoiseParameter.GainDnPerElectron, new Estimate(0.4, 0.001))
        .With(NoiseParameter.InterceptDn2, new Estimate(2.5, 0.02))
        .With(NoiseParameter.RowDn2, new Estimate(0.07, 0.008))
        .With(NoiseParameter.ColumnDn2, new Estimate(0.03, 0.006))
        .With(NoiseParameter.PixelDsnuSquareDn2, new Estimate(0.2, 0.01))
        .With(NoiseParameter.RowDsnuSquareDn2, new Estimate(0.06, 0.01))
        .With(NoiseParameter.ColumnDsnuSquareDn2, new Estimate(0.04, 0.01))
        .With(NoiseParameter.PixelPrnuSquare, new Estimate(3e-5, 8e-7))
        .With(NoiseParameter.RowPrnuSquare, new Estimate(4e-6, 4e-7))
        .With(NoiseParameter.ColumnPrnuSquare, new Estimate(2e-6, 4e-7))
        .With(NoiseParameter.SaturationMeanDn, new Estimate(16383, 0));

    [Theory]
    [InlineData(100)]
    [InlineData(40)]
    [InlineData(10)]
    [InlineData(1)]
    [InlineData(0.5)]
    public void SignalAtSnr_Criterion_IsWhereBisectionFindsIt(double criterion)
    {
        double root = Bisection.FindRoot(s => (s / Math.Sqrt(2.9 + (0.4 * s) + (3.6e-5 * s * s))) - criterion, 1e-6, 1e6, 1e-9, 200);
        Assert.Equal(root, Model.SignalAtSnr(criterion), 1e-7 * root);
    }

    /// <summary>PRNU of 0.6 % keeps SNR below 166.7 whatever the light.</summary>
    [Fact]
    public void SignalAtSnr_BeyondTheFixedPattern_IsNoFigure()
    {
        Assert.True(double.IsFinite(Model.SignalAtSnr(166)));
        Assert.True(double.IsNaN(Model.SignalAtSnr(167)));
        Assert.Null(Model.Evaluate(m => m.SignalAtSnr(167)));
    }

    [Fact]
    public void FirstClipSignal_FullWell_NeedsNoReadNoise()
    {
        double root = Bisection.FindRoot(s => s + Beyond((0.4 * s) + (3.6e-5 * s * s), s) - 15871, 1, 15871, 1e-9, 200);
        Assert.Equal(root, Model.FirstClipSignalDn, 1e-4);
    }

    [Fact]
    public void FirstClipSignal_Converter_IsHalfACodeBelowAndWithoutRounding()
    {
        double root = Bisection.FindRoot(s => s + Beyond(2.9 - (1.0 / 12) + (0.4 * s) + (3.6e-5 * s * s), s) - 15870.5, 1, 15871, 1e-9, 200);
        Assert.Equal(root, Model.WithConverterClip(1).FirstClipSignalDn, 1e-4);
    }

    /// <summary>σ·(z + γ(z² − 1)/6) with γ = (K²S + 3K(PRNU·S)²)/σ³.</summary>
    private static double Beyond(double variance, double signal)
    {
        const double z = 3.0902323;
        double third = (0.16 * signal) + (3 * 0.4 * 3.6e-5 * signal * signal);
        return (Math.Sqrt(variance) * z) + (third / variance * ((z * z) - 1) / 6);
    }

    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 1)]
    [InlineData(0.5, 0.75)]
    public void Pooled_TwoChannels_HaveTheVarianceThatTheyDoNotShare(double correlation, double share)
    {
        double[] values = [.. Enumerable.Repeat(0.4, 2 * NoiseModel.Size)];
        Matrix<double> covariance = Matrix<double>.Build.Dense(values.Length, values.Length);
        int[] gains = [JointModel.PlaceOf(0, NoiseParameter.GainDnPerElectron), JointModel.PlaceOf(1, NoiseParameter.GainDnPerElectron)];
        covariance[gains[0], gains[0]] = covariance[gains[1], gains[1]] = 1e-6;
        covariance[gains[0], gains[1]] = covariance[gains[1], gains[0]] = correlation * 1e-6;
        JointModel joint = new(values, [new CovariancePart(covariance, double.PositiveInfinity)]);

        Estimate pooled = joint.Pooled([0, 1]).Evaluate(m => m[NoiseParameter.GainDnPerElectron])!.Value;

        Assert.Equal(0.4, pooled.Value, 1e-15);
        Assert.Equal(share * 1e-6, pooled.Variance, 1e-12);
    }

    /// <summary>A doubt of 3 % that channels share stays 3 % of their mean; a channel without the parameter keeps none.</summary>
    [Fact]
    public void WithDoubt_IsSharedByAllChannelsThatHaveTheParameter()
    {
        double[] values = [.. Enumerable.Repeat(0.4, 3 * NoiseModel.Size)];
        values[JointModel.PlaceOf(1, NoiseParameter.GainDnPerElectron)] = 0.8;
        values[JointModel.PlaceOf(2, NoiseParameter.GainDnPerElectron)] = double.NaN;

        JointModel doubted = new JointModel(values, []).WithDoubt(NoiseParameter.GainDnPerElectron, 0.03);

        Assert.Equal(0.03 * 0.6, doubted.Pooled([0, 1]).Evaluate(m => m[NoiseParameter.GainDnPerElectron])!.Value.StandardUncertainty, 1e-12);
        Assert.Equal(0, doubted.Channel(0).Evaluate(m => m[NoiseParameter.BlackDn])!.Value.StandardUncertainty);
        Assert.Null(doubted.Channel(2).Evaluate(m => m[NoiseParameter.GainDnPerElectron]));
    }
}
