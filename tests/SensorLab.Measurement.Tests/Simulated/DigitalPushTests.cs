using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>A body that multiplies its codes, by a whole number or not.</summary>
public sealed class DigitalPushTests
{
    private const double ReadNoiseGoal = 0.03;
    private const double GainGoal = 0.015;

    /// <summary>Spacings that are no whole number are known from the codes met.</summary>
    private const double StepGoal = 0.01;

    [Theory]
    [InlineData(2.0)]
    [InlineData(4.0)]
    [InlineData(1.6)]
    public void Figures_CodesMultiplied_KeepGainAndReadNoise(double factor)
    {
        VirtualBody body = VirtualSet.Fine with
        {
            WidthPixels = 480,
            HeightPixels = 320,
            BlackLevelDn = 512,
            IsoSettings = [new VirtualIso { Iso = 100, GainElectronPerDn = 0.8 / factor, ReadNoiseElectron = 1.3, MiddleGreyElectron = 1000, DigitalFactor = factor }],
        };
        IsoProfile profile = new VirtualSet { Body = body, DarkFrames = 8, Seed = 9 }.Characterise();
        Assert.All(profile.Levels[0].Channels, c => Assert.Equal(factor, c.CodeStepDn, factor * StepGoal));
        Assert.All(profile.Channels, c =>
        {
            Assert.Equal(0.8 / factor, c.GainElectronPerDn!.Value!.Value, 0.8 / factor * GainGoal);
            Assert.Equal(1.3, c.ReadNoiseElectron!.Value!.Value, 1.3 * ReadNoiseGoal);
        });
    }
}
