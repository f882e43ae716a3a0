using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Findings.Isos;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>What the figures of neighbouring ISOs say of each other, the figures made up.</summary>
public sealed class IsoSeriesTests
{
    private static readonly IsoEvidence Measured = RehearsedSet.Evidence([])[0];

    /// <summary>Gains of 5 % apart are one gain only where their uncertainties allow for it; with one middle grey they are one setting anyhow.</summary>
    [Theory]
    [InlineData(1.01, 0.5, 0.001, true)]
    [InlineData(1.05, 0.5, 0.001, false)]
    [InlineData(1.05, 0.5, 0.04, true)]
    [InlineData(1.01, 0.1, 0.001, false)]
    public void GainShared_NeedsOneGainAndTwoGreys(double ratio, double greyEv, double uncertainty, bool areShared)
    {
        IsoEvidence low = Iso(100, 2, 3, uncertainty, 1000);
        IsoEvidence high = Iso(125, 2 / ratio, 3, uncertainty, 1000 * Math.Pow(2, -greyEv));

        Assert.Equal(areShared, new GainSharedCheck().Examine([low, high]).Any());
    }

    /// <summary>A fifth more read noise is a rise where four deviations of the ratio are less: of one ISO each by 1.8 %, not by 3.4 %.</summary>
    [Theory]
    [InlineData(1.2, 0.018, true)]
    [InlineData(1.2, 0.034, false)]
    [InlineData(1.14, 0.001, false)]
    [InlineData(1.16, 0.001, true)]
    public void ReadNoiseThatRises_IsNamedBeyondItsUncertaintyAndASeventh(double ratio, double uncertainty, bool isNamed)
    {
        IsoEvidence low = Iso(100, 2, 3, uncertainty, 1000);
        IsoEvidence high = Iso(200, 1, 3 * ratio, uncertainty, 1000);

        Finding[] found = [.. new IsoNoiseDisagreesCheck().Examine([low, high])];

        Assert.Equal(isNamed ? 1 : 0, found.Length);
        Assert.All(found, f => Assert.Equal(ratio - 1, f.Size!.Value, 1e-9));
    }

    /// <summary>The middle one of three gains, off the line through its neighbours: from a twenty-fifth on, and beyond chance.</summary>
    [Theory]
    [InlineData(1.035, 1e-4, false)]
    [InlineData(1.045, 1e-4, true)]
    [InlineData(1 / 1.045, 1e-4, true)]
    [InlineData(1.045, 0.02, false)]
    public void GainOffTheLine_IsNamedBeyondItsUncertaintyAndATwentyFifth(double off, double uncertainty, bool isNamed)
    {
        Finding[] found = [.. new IsoDisagreesCheck().Examine([Iso(100, 2, 3, uncertainty, 1000), Iso(200, off, 3, uncertainty, 1000), Iso(400, 0.5, 3, uncertainty, 1000)])];

        Assert.Equal(isNamed ? 1 : 0, found.Length);
        Assert.All(found, f => Assert.Equal(Math.Abs(off - 1), f.Size!.Value, 1e-9));
    }

    /// <summary>
    /// At the second ISO the ones from it on tell the first what it should have: √(2.987 + 1.013·4) of 5 e⁻. At the last one
    /// only those below can tell: of 2.9 and 3 e⁻ at twice and four times its gain, √(8.213 + 0.197/4) are due, and 1 is there.
    /// </summary>
    [Theory]
    [InlineData(5, 2, 1.8, 200, 0.4693)]
    [InlineData(3, 2.9, 1, 400, 0.6521)]
    public void GainSwitch_IsToldFromEitherSide(double first, double second, double third, int iso, double saved)
    {
        Finding found = Assert.Single(new GainSwitchCheck().Examine([Iso(100, 2, first, 1e-6, 1000), Iso(200, 1, second, 1e-6, 1000), Iso(400, 0.5, third, 1e-6, 1000)]));

        Assert.Equal((iso, FindingCode.GainSwitch), (found.Iso, found.Code));
        Assert.Equal(saved, found.Size!.Value, 1e-3);
    }

    /// <summary>The measured ISO with other figures.</summary>
    /// <param name="iso">Its setting.</param>
    /// <param name="gain">Gain in e⁻/DN.</param>
    /// <param name="noise">Read noise in e⁻.</param>
    /// <param name="uncertainty">Relative standard uncertainty of both, of the greens' mean.</param>
    /// <param name="greyDn">Middle grey in DN.</param>
    private static IsoEvidence Iso(int iso, double gain, double noise, double uncertainty, double greyDn)
    {
        Figure Of(double value) => Figure.Estimate(value, Math.Sqrt(2) * uncertainty * value, value, value);
        IsoProfile profile = Measured.Profile with
        {
            Iso = iso,
            Channels = [.. Measured.Profile.Channels.Select(c => c with { GainElectronPerDn = Of(gain), ReadNoiseElectron = Of(noise), MiddleGreyDn = Of(greyDn) })],
        };
        return IsoEvidence.Of([.. Measured.Levels.Select(l => l.Statistics)], Measured.Fitted with { Profile = profile }, Measured.Options)!;
    }
}
