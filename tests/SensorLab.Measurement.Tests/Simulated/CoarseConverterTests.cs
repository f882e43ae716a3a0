using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>Read noise of 0.24 DN behind a 12-bit converter, wherever black lies between two codes.</summary>
public sealed class CoarseConverterTests
{
    private const double ReadNoiseGoal = 0.05;
    private const double BlackGoalDn = 0.05;

    [Theory]
    [InlineData(100.0)]
    [InlineData(100.25)]
    [InlineData(100.5)]
    public void ReadNoise_BelowHalfAStep_HoldsFivePercent(double blackDn)
    {
        VirtualBody body = VirtualSet.Fine with
        {
            BitDepth = 12,
            WidthPixels = 480,
            HeightPixels = 320,
            BlackLevelDn = blackDn,
            FullWellElectron = 30_000,
            DsnuElectron = 0.3,
            IsoSettings = [new VirtualIso { Iso = 100, GainElectronPerDn = 6, ReadNoiseElectron = 1.44, MiddleGreyElectron = 3000 }],
        };
        IsoProfile profile = new VirtualSet { Body = body, DarkFrames = 8, Seed = 3 }.Characterise();
        Assert.All(profile.Channels, c =>
        {
            Assert.Equal(0.24, c.ReadNoiseDn!.Value!.Value, 0.24 * ReadNoiseGoal);
            Assert.Equal(1.44, c.ReadNoiseElectron!.Value!.Value, 1.44 * ReadNoiseGoal);
            Assert.Equal(blackDn, c.BlackLevelDn!.Value!.Value, BlackGoalDn);
        });
    }
}
