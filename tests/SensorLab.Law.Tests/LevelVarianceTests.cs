using SensorLab.Profiles;

namespace SensorLab.Law.Tests;

public sealed class LevelVarianceTests
{
    private static readonly LevelRecord Level = new() { Role = "bracket", ExposureSeconds = 1, Frames = 3, PixelsPerChannel = 101, RowsPerChannel = 10, Channels = [] };

    [Fact]
    public void TemporalUncertainty_NoParts_IsTheVarianceOfAVariance()
    {
        var channel = new LevelChannel { Name = "Y", MeanDn = 600, TemporalVarianceDn2 = 50 };

        // 2 × 100 degrees of freedom: 50 · √(2/200).
        Assert.Equal(5, LevelVariance.TemporalUncertaintyDn2(Level, channel)!.Value, 12);
        Assert.Null(LevelVariance.TemporalUncertaintyDn2(Level with { Frames = 1 }, channel));
        Assert.Null(LevelVariance.TemporalUncertaintyDn2(Level, channel with { TemporalVarianceDn2 = null }));
    }

    [Fact]
    public void TemporalUncertainty_Parts_AddInSquares() =>
        Assert.Equal(7, LevelVariance.TemporalUncertaintyDn2(Level, new LevelChannel { Name = "Y", MeanDn = 600, TemporalVarianceDn2 = 50, TemporalParts = Parts(2, 3, 6) })!.Value, 12);

    internal static VarianceParts Parts(double pixel, double row, double column) => new()
    {
        PixelDn2 = 50,
        PixelUncertaintyDn2 = pixel,
        RowDn2 = 0,
        RowUncertaintyDn2 = row,
        ColumnDn2 = 0,
        ColumnUncertaintyDn2 = column,
    };
}
