using SensorLab.Measurement.Flaws;
using SensorLab.Measurement.Tests.Flaws;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Noise;

/// <summary>Black is what dark frames show at no exposure.</summary>
public sealed class DarkSignalTests
{
    private const double BlackDn = 512.25;

    /// <summary>Standard uncertainties that the error of a single set stays within: section 11 of the measurement model.</summary>
    private const double Deviations = 5;

    private const double BlackToleranceDn = 0.05;

    private const double ReadNoiseTolerance = 0.03;

    // The longest dark frames have seconds, and half of all are that long: their mean would be off by DN.
    [Theory]
    [InlineData("dark-current=10", "dark-current")]
    [InlineData("dark-current=0.5", null)]
    [InlineData("dark-lit=5", "dark-lit")]
    [InlineData("dark-lit=0.5", null)]
    public void Black_DarkSignalGrows_IsThatOfTheShortFrames(string flaw, string? code)
    {
        IsoEvidence evidence = RehearsedSet.Evidence([flaw])[0];

        Assert.All(evidence.Profile.Channels, c =>
        {
            Assert.InRange(c.BlackLevelDn!.Value!.Value - BlackDn, -Tolerance(c.BlackLevelDn, BlackToleranceDn), Tolerance(c.BlackLevelDn, BlackToleranceDn));
            double read = RehearsedSet.SmallBody.At(100).ReadNoiseElectron;
            double allowed = Tolerance(c.ReadNoiseElectron!, ReadNoiseTolerance * read);
            Assert.InRange(c.ReadNoiseElectron!.Value!.Value - read, -allowed, allowed);
        });
        if (code is not null)
        {
            Finding finding = IsoChecks.Examine([evidence]).First(f => f.Code == code);
            Assert.Contains("Compensated: black is that of the short dark frames", finding.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Black_ThatDriftsBetweenFrames_IsTheMeanOfAll()
    {
        IsoEvidence evidence = RehearsedSet.Evidence(["black-drift=10"])[0];
        double[] means = [.. evidence.Darks.SelectMany(d => d.Record.Channels[0].FrameMeansDn)];

        Assert.Equal(means.Average(), evidence.BlackDn(0), 9);
    }

    private static double Tolerance(Figure figure, double smallest) => Math.Max(smallest, Deviations * figure.StandardUncertainty!.Value);
}
