using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Model;

public sealed class PhotonTransferPointTests
{
    // Contrast of two frames of light a and b, the one scaled to the other: shot noise of b + (b/a)²·a over 1 + (b/a)² frames.
    [Theory]
    [InlineData(200, 200, 200)]
    [InlineData(100, 300, 120)]
    [InlineData(300, 100, 120)]
    public void Signal_OfFramesInDifferentLight_IsThatOfTheirScaledShotNoise(double first, double second, double expected) =>
        Assert.Equal(expected, PointOf(first, second).SignalDn, 1e-9);

    private static PhotonTransferPoint PointOf(params double[] signals)
    {
        const double black = 512;
        var channel = new LevelChannel
        {
            Name = "Y",
            MeanDn = black + signals.Average(),
            FrameMeansDn = [.. signals.Select(s => black + s)],
            TemporalParts = new VarianceParts { PixelDn2 = 100, PixelUncertaintyDn2 = 1, RowDn2 = 0, RowUncertaintyDn2 = 0, ColumnDn2 = 0, ColumnUncertaintyDn2 = 0 },
        };
        var level = new LevelRecord { Role = "bracket", ExposureSeconds = 0.1, Frames = signals.Length, PixelsPerChannel = 10_000, Channels = [channel] };
        return PhotonTransferPoint.Of(new ObservedLevel(level, channel), black, default(ResponseCurve), 1, BlackDrift.None);
    }
}
