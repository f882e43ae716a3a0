using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>A response that lacks a share of the signal at full well, and one that lacks nothing.</summary>
public sealed class ResponseBendTests
{
    private const double GainGoal = 0.01;
    private const double AboveGoalEv = 0.03;

    [Theory]
    [InlineData(2.0)]
    [InlineData(4.0)]
    [InlineData(8.0)]
    public void Above_BentResponse_IsTheRatioOfExposures(double compressionPercent)
    {
        IsoProfile profile = new VirtualSet { Body = Body(compressionPercent), Seed = 13 }.Characterise();
        foreach (ChannelProfile channel in profile.Channels)
        {
            Assert.Equal(0.65, channel.GainElectronPerDn!.Value!.Value, 0.65 * GainGoal);
            Assert.NotNull(channel.CompressionPercent);
        }

        // The green channels are the most sensitive: metered at an eighth of what fills the well.
        ChannelProfile green = profile.Channels.First(c => c.Name == "G1");
        Assert.Equal(3, green.Latitude.AboveEv!.Value!.Value, AboveGoalEv);
    }

    [Fact]
    public void Compression_StraightResponse_IsAbsent() => Assert.All(
        new VirtualSet { Body = Body(0), Seed = 13 }.Characterise().Channels,
        c => Assert.Null(c.CompressionPercent));

    private static VirtualBody Body(double compressionPercent) => VirtualSet.Fine with
    {
        WidthPixels = 320,
        HeightPixels = 240,
        BlackLevelDn = 600.25,
        FullWellElectron = 10_000,
        CompressionPercent = compressionPercent,
        IsoSettings = [new VirtualIso { Iso = 100, GainElectronPerDn = 0.65, ReadNoiseElectron = 2, MiddleGreyElectron = 1000 }],
    };
}
