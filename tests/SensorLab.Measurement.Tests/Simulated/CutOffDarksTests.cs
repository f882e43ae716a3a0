using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>A body that cuts dark values off, at code 0 or with its pedestal kept, DSNU of 1 e⁻ beside read noise of 3 e⁻.</summary>
public sealed class CutOffDarksTests
{
    private const double ReadNoiseGoal = 0.05;
    private const double GainGoal = 0.01;

    /// <summary>Five standard uncertainties of black where two thirds of the values are cut off.</summary>
    private const double BlackGoalDn = 0.08;

    /// <summary>DSNU is a third of the noise and seen through it: two of its own standard uncertainties and a half.</summary>
    private const double DsnuGoal = 0.15;

    [Theory]
    [InlineData(0.0, 0.0, 0)]
    [InlineData(0.6, 0.0, 0)]
    [InlineData(1.2, 0.0, 0)]
    [InlineData(3.0, 0.0, 0)]
    [InlineData(1.2, 1.5, 0)]
    [InlineData(128.0, 0.0, 128)]
    [InlineData(128.25, 0.0, 127)]
    [InlineData(128.5, 0.0, 125)]
    public void ReadNoise_DarksCutOff_HoldsFivePercent(double blackDn, double rowNoiseElectron, int lowestCodeDn)
    {
        VirtualBody body = Body(blackDn, rowNoiseElectron) with { LowestCodeDn = lowestCodeDn };

        IsoProfile profile = new VirtualSet { Body = body, DarkFrames = 8, Seed = 7 }.Characterise();

        Assert.All(profile.Channels, c =>
        {
            Assert.Equal(3, c.ReadNoiseElectron!.Value!.Value, 3 * ReadNoiseGoal);
            Assert.Equal(1.5, c.ReadNoiseDn!.Value!.Value, 1.5 * ReadNoiseGoal);
            Assert.Equal(2, c.GainElectronPerDn!.Value!.Value, 2 * GainGoal);
            Assert.Equal(blackDn, c.BlackLevelDn!.Value!.Value, BlackGoalDn);
            Assert.Equal(1, c.DsnuElectron!.Value!.Value, DsnuGoal);
        });
    }

    private static VirtualBody Body(double blackDn, double rowNoiseElectron) => VirtualSet.Fine with
    {
        BitDepth = 12,
        WidthPixels = 480,
        HeightPixels = 320,
        BlackLevelDn = blackDn,
        FullWellElectron = 20_000,
        DsnuElectron = 1,
        RowNoiseElectron = rowNoiseElectron,
        IsoSettings = [new VirtualIso { Iso = 100, GainElectronPerDn = 2, ReadNoiseElectron = 3, MiddleGreyElectron = 2000 }],
    };
}
