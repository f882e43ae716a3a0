using SensorLab.Measurement.Previews;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Previews;

public sealed class PreviewPointsTests
{
    /// <summary>A seventh of a stop below saturation noise has begun to clip: the exposure time counts on from the level below. Lower, the signal itself tells.</summary>
    [Theory]
    [InlineData(MadeUpPreviews.AboveEv - 0.1, 3.25)]
    [InlineData(MadeUpPreviews.AboveEv - 0.2, MadeUpPreviews.AboveEv - 0.2)]
    public void ByLook_LevelNearSaturation_GoesByItsExposureTime(double seenEv, double ev)
    {
        MadeUpPreviews made = new() { Curve = e => 128 + (30 * e), FirstEv = 2, LastEv = 2 };
        LevelRecord below = Assert.Single(made.Levels());
        LevelRecord near = below with { ExposureSeconds = Math.Pow(2, 3.25), Ev = seenEv };

        (_, IReadOnlyList<PreviewPoint> points) = Assert.Single(new PreviewPoints([below, near], MadeUpPreviews.Channels).ByLook());

        Assert.Equal([2, ev], points.Select(p => p.Ev), (a, b) => Math.Abs(a - b) < 1e-9);
    }

    /// <summary>Where the light flickers, a frame's own mean says how much of it there was: black of 500 DN, a level of 4000 DN and frames of a stop apart.</summary>
    [Fact]
    public void ByLook_FramesOfOtherLight_GoByTheirOwnMeans()
    {
        MadeUpPreviews made = new() { Curve = e => 128 + (30 * e), FirstEv = 2, LastEv = 2, FramesPerLevel = 2 };
        LevelRecord level = Assert.Single(made.Levels());
        LevelRecord flickers = level with { Channels = [.. level.Channels.Select(c => c with { FrameMeansDn = [500 + (4000 * 4 / 3.0), 500 + (4000 * 2 / 3.0)] })] };

        (_, IReadOnlyList<PreviewPoint> points) = Assert.Single(new PreviewPoints([flickers], MadeUpPreviews.Channels).ByLook());

        Assert.Equal([2 + Math.Log2(4 / 3.0), 2 + Math.Log2(2 / 3.0)], points.Select(p => p.Ev), (a, b) => Math.Abs(a - b) < 1e-9);
    }
}
