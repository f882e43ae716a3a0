using SensorLab.Law;
using SensorLab.Measurement.Codes;

namespace SensorLab.Measurement.Tests.Codes;

public sealed class RoundedNormalTests
{
    /// <summary>A quarter of a code of noise, half of it shared: the mean of Φ((z − ½)/σ) − Φ((−z − ½)/σ) over z, by another sum out to 8 deviations, has a quarter of z's variance (ours ends at 4, which costs 4 ‰ of it). Fine noise comes through whole.</summary>
    [Theory]
    [InlineData(25, 5, 1, 0.01)]
    [InlineData(0.0625, 0.03, 0.2533, 2e-3)]
    public void ShrinkingOf_Noise_IsWholeWhereCodesAreFine(double totalDn2, double sharedDn2, double shrinking, double tolerance) =>
        Assert.Equal(shrinking, Of(totalDn2).ShrinkingOf(sharedDn2, null), tolerance);

    /// <summary>Sampling may tell of more shared variance than there is in all; nine tenths are reckoned with, and at a fifth of a code most of it is lost to rounding.</summary>
    [Fact]
    public void ShrinkingOf_MoreThanThereIs_IsThatOfNineTenths()
    {
        RoundedNormal coarse = Of(0.04);

        Assert.Equal(coarse.ShrinkingOf(0.9 * 0.04, null), coarse.ShrinkingOf(2 * 0.04, null), 1e-12);
        Assert.InRange(coarse.ShrinkingOf(2 * 0.04, null), 0.1, 0.5);
    }

    [Fact]
    public void ShrinkingOf_NoNoise_IsOne() => Assert.Equal(1, Of(0).ShrinkingOf(0.01, null));

    private static RoundedNormal Of(double totalDn2) => new(new Estimate(100, 0), new Estimate(totalDn2, 0), new Estimate(totalDn2, 0), new Estimate(0, 0), new RoundedCovariance(0, 0, 0)) { FirstCodeDn = 100 };
}
