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
}
