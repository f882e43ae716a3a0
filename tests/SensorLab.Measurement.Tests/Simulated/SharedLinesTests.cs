using SensorLab.Measurement.Figures;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Simulated;

/// <summary>Where every row and column holds all channels, what a line has is seen by all of them, and pooling the greens does not average it out.</summary>
public sealed class SharedLinesTests
{
    /// <summary>Rows and columns that vary by more than their photosites: both greens see nearly the same pattern.</summary>
    private static readonly VirtualBody Lined = VirtualSet.Fine with { PrnuPercent = 0.3, PrnuRowPercent = 0.8, PrnuColumnPercent = 0.8 };

    /// <summary>
    /// Of a pattern that the greens share both know as much as one: SNR, where PRNU has 0.85 of the noise's square, is 0.85
    /// times as uncertain as PRNU. Of lines of their own they know √2 times as much: 0.60. Halfway lies 0.72.
    /// </summary>
    [Theory]
    [InlineData("6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG", 0.72, 0.97)]
    [InlineData("RGGB", 0.48, 0.72)]
    [InlineData("4x4:RRGGRRGGGGBBGGBB", 0.48, 0.72)]
    public void Characterise_PatternOfLines_IsPooledAsFarAsGreensHaveTheirOwn(string filters, double least, double most)
    {
        LevelRecord[] levels = new VirtualSet { Body = Lined with { ColourFilterArray = filters } }.Reduce();
        IsoProfile profile = IsoCharacteriser.Characterise(100, levels, new IsoOptions(), TestContext.Current.CancellationToken).Profile!;

        Figure brightest = profile.SnrCurve[^1].SnrTotal!;
        Figure prnu = profile.Channels.First(c => c.Name == "G1").PrnuPercent!;
        Assert.InRange(Relative(brightest) / Relative(prnu), least, most);
    }

    /// <summary>The same levels, taken for those of greens with lines of their own: every mean is then told too well.</summary>
    [Fact]
    public void Characterise_RowNoise_MovesTheGreensTogether()
    {
        VirtualBody body = VirtualSet.Fine with { ColourFilterArray = "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG", RowNoiseElectron = 2.5 };
        LevelRecord[] levels = new VirtualSet { Body = body }.Reduce();

        double shared = ShadowEnd(levels).StandardUncertainty!.Value;
        double apart = ShadowEnd([.. levels.Select(l => l with { ColumnsPerChannel = null })]).StandardUncertainty!.Value;

        Assert.InRange(shared / apart, 1.1, Math.Sqrt(2) * 1.05);
    }

    private static Figure ShadowEnd(LevelRecord[] levels) =>
        IsoCharacteriser.Characterise(100, levels, new IsoOptions(), TestContext.Current.CancellationToken).Profile!.Latitude.BelowEv.First(b => b.Snr == 1).PerPixel!;

    private static double Relative(Figure figure) => figure.StandardUncertainty!.Value / figure.Value!.Value;
}
