using MathNet.Numerics.Distributions;
using SensorLab.Law;
using SensorLab.Measurement.Codes;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Codes;

public sealed class RoundedNormalEstimatorTests
{
    private const int Frames = 4;
    private const double Pixels = 100_000;

    /// <summary>
    /// Black on a code, 0.25 DN of noise without pattern: Φ(−2) = 0.0227501 of the values lie on either side, and the rounded
    /// variance is twice that.
    /// </summary>
    [Fact]
    public void Fit_ExpectedShares_GivesTheNoiseBack()
    {
        const double side = 0.02275013194817921;
        double variance = 2 * side;
        CodeHistogram codes = Histogram(99, side, 1 - (2 * side), side);
        RoundedNormal fit = RoundedNormalEstimator.Fit(codes, Frames, Pixels, Temporal(variance), null)!;
        Assert.Equal(100, fit.MeanDn.Value, 1e-6);
        Assert.Equal(0.0625, fit.TemporalVarianceDn2.Value, 1e-5);
        Assert.Equal(0, fit.PatternVarianceDn2.Value, 1e-5);

        // The variance's own sampling, dominated by the rare codes: about 1/√(400 000 · 0.0455) of the variance over d ln p/d ln σ² = 2.4.
        Assert.InRange(fit.TotalVarianceDn2.StandardUncertainty / 0.0625, 0.002, 0.005);
    }

    /// <summary>Half-way with two codes only, the dark frames leave the scale open: the lit levels' intercept decides.</summary>
    [Fact]
    public void Fit_TwoCodesHalfWay_FollowsTheLitLevels()
    {
        RoundedNormal fit = RoundedNormalEstimator.Fit(Histogram(100, 0.5, 0.5), Frames, Pixels, Temporal(0.25), Lit(0.03, 0.004))!;
        Assert.Equal(100.5, fit.MeanDn.Value, 1e-3);
        Assert.Equal(0.03, fit.TemporalVarianceDn2.Value, 0.004);
        Assert.InRange(fit.TemporalVarianceDn2.StandardUncertainty, 0.0005, 0.0041);
    }

    /// <summary>And where they say nothing above zero, no read noise is made up from the rounding.</summary>
    [Fact]
    public void Fit_TwoCodesHalfWayAndNoLitVariance_StaysABound()
    {
        RoundedNormal fit = RoundedNormalEstimator.Fit(Histogram(100, 0.5, 0.5), Frames, 1000, Temporal(0.25), Lit(-0.02, 0.04))!;
        Figure figure = fit.TemporalVarianceDn2.ToRootFigure();
        Assert.Null(figure.Value);
        Assert.InRange(figure.AtMost!.Value, 0.2, 0.3);
    }

    /// <summary>Values that are all of one code leave black anywhere in it, whatever the lit levels say of the noise.</summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(-0.02)]
    public void Fit_OneCodeAlone_LeavesBlackAnywhereInIt(double litVariance)
    {
        RoundedNormal fit = RoundedNormalEstimator.Fit(Histogram(100, 1), Frames, Pixels, new Estimate(0, 1e-6), Lit(litVariance, 0.005))!;
        Assert.Equal(100, fit.MeanDn.Value, 1e-9);
        Assert.Equal(Math.Sqrt(1.0 / 12), fit.MeanDn.StandardUncertainty, 1e-9);
        Assert.True(double.IsFinite(fit.ShrinkingOf(1e-4, null)));
    }

    /// <summary>
    /// Black one deviation above the cut: Φ(−1) = 0.1586553 of a normal distribution stands for all below it. Codes wide
    /// apart from their noise would tell little; here 2 DN of noise over codes 0 to 9.
    /// </summary>
    [Fact]
    public void Fit_CutOffAtBlack_GivesTheNoiseBack()
    {
        const double mean = 1.5;
        const double temporal = 4;
        double[] shares = [.. Enumerable.Range(0, 12).Select(code =>
            (code == 11 ? 1 : Normal.CDF(mean, 2, code + 0.5)) - (code == 0 ? 0 : Normal.CDF(mean, 2, code - 0.5)))];
        double middle = shares.Select((p, code) => p * code).Sum();
        double spread = shares.Select((p, code) => p * (code - middle) * (code - middle)).Sum();
        RoundedNormal fit = RoundedNormalEstimator.Fit(Histogram(0, shares), Frames, Pixels, Temporal(spread), null, isCutOff: true)!;
        Assert.Equal(mean, fit.MeanDn.Value, 1e-3);
        Assert.Equal(temporal, fit.TemporalVarianceDn2.Value, 1e-3 * temporal);
        Assert.Equal(0, fit.PatternVarianceDn2.Value, 3 * fit.PatternVarianceDn2.StandardUncertainty);
        Assert.True(fit.Covariance.MeanAndTemporalDn3 < 0, "A higher black needs less noise to reach the same codes.");
    }

    /// <summary>A line that rises by 0.2 DN² a DN and stands at 0.03 DN² at a black of 100.4 stands at 0.05 at 100.5.</summary>
    [Fact]
    public void Fit_LitInterceptAtAnotherBlack_MovesWithIt()
    {
        var lit = new LitIntercept(new Estimate(0.03, 0.0004), 100.4, 0.2);
        RoundedNormal fit = RoundedNormalEstimator.Fit(Histogram(100, 0.5, 0.5), Frames, Pixels, Temporal(0.25), lit)!;
        Assert.Equal(0.05, fit.TemporalVarianceDn2.Value, 0.001);
    }

    private static LitIntercept Lit(double variance, double uncertainty) => new(new Estimate(variance, uncertainty), 100.5, 0);

    private static Estimate Temporal(double variance) => new(variance, variance * Math.Sqrt(2 / ((Frames - 1) * Pixels)));

    private static CodeHistogram Histogram(int first, params double[] shares) =>
        new(first, [.. shares.Select(s => (long)Math.Round(s * Frames * Pixels))]);
}
