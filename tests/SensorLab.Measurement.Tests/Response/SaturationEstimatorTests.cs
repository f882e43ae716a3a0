using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Response;
using SensorLab.Measurement.Tests.Model;

namespace SensorLab.Measurement.Tests.Response;

/// <summary>Variance = 10 + 0.4·S on the straight part, seconds × 10 000 DN of signal.</summary>
public sealed class SaturationEstimatorTests
{
    private static readonly PhotonTransfer Transfer = new(0.4, 10, 0, 0, 0, 0, 5, true);

    [Fact]
    public void Of_PixelsPiledUpAtTheConverter_IsItsCode()
    {
        Saturation saturation = Of([Straight(0.5), Straight(1), MadeUpLevels.Lit(2, 16383, 0, 1, 16383), MadeUpLevels.Lit(4, 16383, 0, 1, 16383)]);
        Assert.True(saturation.AtConverter);
        Assert.Equal(16383, saturation.MeanDn!.Value.Value);
    }

    [Fact]
    public void Of_SomePixelsPiledUp_IsTheirCodeAndNotTheMean()
    {
        Saturation saturation = Of([Straight(1), MadeUpLevels.Lit(1.55, 15900, 4000, 0.2, 16383)]);
        Assert.Equal(16383, saturation.MeanDn!.Value.Value);
        Assert.Equal(15900, saturation.HighestMeanDn);
    }

    [Fact]
    public void Of_TwoLevelsAtTheFullWell_IsTheirMean()
    {
        Saturation saturation = Of([Straight(0.5), Straight(1), MadeUpLevels.Lit(2, 13000.1, 10), MadeUpLevels.Lit(4, 13000.3, 10)]);
        Assert.False(saturation.AtConverter);
        Assert.Equal(13000.2, saturation.MeanDn!.Value.Value, 1e-9);

        // The pixels' sampling (0.1 DN, shared) and half of the scatter's variance.
        Assert.Equal(Math.Sqrt(0.01 + 0.01), saturation.MeanDn.Value.StandardUncertainty, 1e-9);
    }

    [Fact]
    public void Of_OneLevelAtTheFullWell_IsSeenByItsCollapsedVariance()
    {
        Saturation saturation = Of([Straight(0.5), Straight(1), MadeUpLevels.Lit(2, 13000, 10)]);
        Assert.Equal(13000, saturation.MeanDn!.Value.Value);
    }

    [Fact]
    public void Of_OnlyTheLastLevelPartlyAtTheFullWell_IsABound()
    {
        Saturation saturation = Of([Straight(0.5), Straight(1), MadeUpLevels.Lit(1.25, 12950, 2500)]);
        Assert.Null(saturation.MeanDn);
        Assert.Equal(12950, saturation.HighestMeanDn);
    }

    [Fact]
    public void Of_NoLevelSaturated_IsABound()
    {
        Saturation saturation = Of([Straight(0.25), Straight(0.5), Straight(1)]);
        Assert.Null(saturation.MeanDn);
        Assert.Equal(10512, saturation.HighestMeanDn);
    }

    /// <summary>Two frames under a cap are equal whatever their exposures are, a little above black or below it: nothing saturates there.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(-3)]
    public void Of_EqualLevelsNearBlackInAnotherLight_AreNoPlateau(double signalDn)
    {
        ObservedLevel[] capped = [.. new[] { 1.0, 2, 4 }.Select(seconds => MadeUpLevels.Lit(seconds, MadeUpLevels.BlackDn + signalDn, 10))];
        Saturation saturation = Of([Straight(0.25), Straight(0.5), .. capped.Select(l => l with { Level = l.Level with { LightStep = "capped" } })]);

        Assert.Null(saturation.MeanDn);
        Assert.Equal(MadeUpLevels.BlackDn + 5000, saturation.HighestMeanDn);
    }

    /// <summary>A twentieth more light is hardly another level: two of the same mean may lie beside each other by chance. A fifth more is one.</summary>
    [Theory]
    [InlineData(1.05, false)]
    [InlineData(1.2, true)]
    public void Of_TwoLevelsOfOneMean_AreAPlateauWhereTheirLightDiffers(double more, bool isPlateau)
    {
        Saturation saturation = Of([Straight(0.5), MadeUpLevels.Lit(1.3, 13000, 5000), MadeUpLevels.Lit(1.3 * more, 13000, 5000)]);

        Assert.Equal(isPlateau, saturation.MeanDn is not null);
    }

    private static Saturation Of(ObservedLevel[] lit) => SaturationEstimator.Of(lit, MadeUpLevels.BlackDn, Transfer);

    private static ObservedLevel Straight(double seconds) =>
        MadeUpLevels.Lit(seconds, MadeUpLevels.BlackDn + (10_000 * seconds), 10 + (4000 * seconds));
}
