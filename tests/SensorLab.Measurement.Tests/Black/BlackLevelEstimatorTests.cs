using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Tests.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Black;

public sealed class BlackLevelEstimatorTests
{
    private const double PixelDn2 = 4;

    [Fact]
    public void Of_SteadyBlack_RestsOnThePixels()
    {
        Estimate black = BlackLevelEstimator.Of([Dark(rowDn2: 0, MadeUpLevels.BlackDn, MadeUpLevels.BlackDn)]);
        Assert.Equal(MadeUpLevels.BlackDn, black.Value);

        // The fixed pattern's 1 DN² and half the temporal variance of two frames, over 10 000 pixels.
        Assert.Equal(Math.Sqrt((1 + (PixelDn2 / 2)) / 10_000), black.StandardUncertainty, 1e-12);
        Assert.True(double.IsPositiveInfinity(black.DegreesOfFreedom));
    }

    /// <summary>100 rows of 1 DN² leave 0.01 DN² in the mean; known to a fifth, they are worth 2·5² degrees of freedom.</summary>
    [Fact]
    public void Of_FixedRows_RestsOnFewLines()
    {
        Estimate black = BlackLevelEstimator.Of([Dark(rowDn2: 1, MadeUpLevels.BlackDn, MadeUpLevels.BlackDn)]);
        double pixels = (1 + (PixelDn2 / 2)) / 10_000;
        Assert.Equal(Math.Sqrt(0.01 + pixels), black.StandardUncertainty, 1e-9);
        Assert.Equal(50 * Math.Pow((0.01 + pixels) / 0.01, 2), black.DegreesOfFreedom, 1e-3);
    }

    [Fact]
    public void Of_BlackThatDrifts_RestsOnTheFramesScatter()
    {
        Estimate black = BlackLevelEstimator.Of([Dark(rowDn2: 0, MadeUpLevels.BlackDn - 1, MadeUpLevels.BlackDn + 1, MadeUpLevels.BlackDn)]);
        Assert.Equal(Math.Sqrt(1 / 3.0), black.StandardUncertainty, 1e-3);
        Assert.Equal(2, black.DegreesOfFreedom, 1e-2);
    }

    private static ChannelLevel Dark(double rowDn2, params double[] framesDn)
    {
        LevelChannel plain = MadeUpLevels.Channel("Y", framesDn.Average(), PixelDn2);
        LevelChannel channel = plain with
        {
            FrameMeansDn = framesDn,
            FixedPatternParts = plain.FixedPatternParts! with { RowDn2 = rowDn2, RowUncertaintyDn2 = rowDn2 == 0 ? 0.001 : rowDn2 / 5, ColumnUncertaintyDn2 = 1e-9 },
        };
        return new ChannelLevel(
            new LevelRecord { Role = "dark", ExposureSeconds = 1, Frames = framesDn.Length, PixelsPerChannel = 10_000, RowsPerChannel = 100, Channels = [channel] },
            channel);
    }
}
