using SensorLab.Measurement.Black;
using SensorLab.Measurement.Tests.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Black;

public sealed class BlackDriftTests
{
    /// <summary>Frames 2 DN apart, of noise 0.02 DN: squares of 2 DN² with one degree of freedom.</summary>
    [Fact]
    public void Of_FramesApart_IsTheirVariance()
    {
        BlackDrift drift = BlackDrift.Of([Dark(1, 511, 513)]);
        Assert.Equal(2 - (4 / 10_000.0), drift.FrameDn2, 1e-12);
        Assert.Equal(1, drift.DegreesOfFreedom);
        Assert.Equal(drift.FrameDn2 / 2, drift.OfMean(2), 1e-12);
    }

    /// <summary>Dark signal that grows with exposure moves levels, not the frames of one.</summary>
    [Fact]
    public void Of_LevelsApart_StandsStill() => Assert.Equal(BlackDrift.None, BlackDrift.Of([Dark(1, 512, 512.01), Dark(10, 520, 520.01)]));

    [Fact]
    public void Of_LevelsOfOneFrame_StandsStill() => Assert.Equal(BlackDrift.None, BlackDrift.Of([Dark(1, 512), Dark(1, 515)]));

    private static LevelRecord Dark(double seconds, params double[] framesDn) => new()
    {
        Role = "dark",
        ExposureSeconds = seconds,
        Frames = framesDn.Length,
        PixelsPerChannel = 10_000,
        RowsPerChannel = 100,
        Channels = [MadeUpLevels.Channel("Y", framesDn.Average(), 4) with { FrameMeansDn = framesDn }],
    };
}
