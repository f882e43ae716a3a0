using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Figures;

/// <summary>Metered frames are a sample of what shutter and lamp give: where those scatter, middle grey is known as well as that.</summary>
public sealed class FrameScatterTests
{
    private static readonly VirtualBody Body = new() { WidthPixels = 240, HeightPixels = 160 };

    [Fact]
    public void Of_SteadyLight_IsNone() =>
        Assert.Null(FrameScatter.Of(RehearsedSet.Evidence([], Body)[0].Channels));

    /// <summary>A scatter of 2 % of the frames' light, known from a dozen frames: within a factor of two.</summary>
    [Fact]
    public void Of_FlickeringLight_IsItsSize()
    {
        FrameScatter scatter = FrameScatter.Of(RehearsedSet.Evidence(["light-flicker=0.02"], Body)[0].Channels)!.Value;

        Assert.InRange(Math.Sqrt(scatter.Square), 0.01, 0.04);
        Assert.InRange(scatter.DegreesOfFreedom, 2, 100);
    }

    [Fact]
    public void Above_FlickeringLight_CarriesTheScatterOfItsMeteredFrames()
    {
        IsoEvidence steady = RehearsedSet.Evidence([], Body)[0];
        IsoEvidence flickering = RehearsedSet.Evidence(["light-flicker=0.02"], Body)[0];
        double frames = flickering.Profile.Levels.Where(l => l.Role == "metered").Sum(l => l.Frames);

        // A relative scatter of s/√n of middle grey is log2(e)·s/√n of a stop.
        double expected = Math.Sqrt(FrameScatter.Of(flickering.Channels)!.Value.Square / frames) / Math.Log(2);
        Figure above = flickering.Profile.Latitude.AboveEv!;
        Assert.True(above.StandardUncertainty > 3 * steady.Profile.Latitude.AboveEv!.StandardUncertainty);
        Assert.Equal(expected, above.StandardUncertainty!.Value, 0.1 * expected);
    }
}
