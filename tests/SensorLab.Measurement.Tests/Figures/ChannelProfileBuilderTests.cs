using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Tests.Findings;

namespace SensorLab.Measurement.Tests.Figures;

public sealed class ChannelProfileBuilderTests
{
    /// <summary>A bracket that ends half a stop below the clip: saturation is at least the brightest level's signal, in DN and, by the gain, in electrons.</summary>
    [Fact]
    public void Build_SaturationNotReached_BoundsItByTheBrightestLevel()
    {
        IsoEvidence iso = RehearsedSet.Evidence(["saturation-not-reached=0.5"])[0];

        Assert.NotEmpty(iso.Profile.Channels);
        Assert.All(iso.Profile.Channels, channel =>
        {
            double brightest = iso.Profile.Levels.Max(l => l.Channels.Single(c => c.Name == channel.Name).MeanDn) - channel.BlackLevelDn!.Value!.Value;
            Assert.Null(channel.SaturationDn!.Value);
            Assert.Equal(brightest, channel.SaturationDn.AtLeast!.Value, 1e-9 * brightest);
            Assert.Equal(brightest * channel.GainElectronPerDn!.Value!.Value, channel.SaturationElectron!.AtLeast!.Value, 1e-9 * channel.SaturationElectron.AtLeast.Value);
        });
    }
}
