using SensorLab.Law;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Findings.Black;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>Masked photosites tell where black is, and whether light came into the dark frames.</summary>
public sealed class OpticalBlackTests
{
    /// <summary>The means of masked and dark photosites lie within four of their uncertainties in all but 6 of 100,000 draws.</summary>
    private const double MostDeviations = 4;

    /// <summary>Five and a half standard uncertainties of the difference that a set of this size gives (0.09 DN).</summary>
    private const double ToleranceDn = 0.5;

    private static VirtualBody Masked => RehearsedSet.SmallBody with { MaskedLeftPixels = 32, MaskedTopPixels = 8 };

    [Theory]
    [InlineData("RGGB", 1)]
    [InlineData("GBRG", 2)]
    [InlineData("monochrome", 3)]
    public void CleanSet_WithMaskedPixels_AgreesAndFindsNothing(string filters, int seed)
    {
        VirtualBody body = Masked with { ColourFilterArray = filters, PatternSeed = (ulong)seed, RowNoiseElectron = 0.5, DsnuColumnElectron = 0.3 };
        IReadOnlyList<IsoEvidence> evidence = RehearsedSet.Evidence([], body, (ulong)seed);
        OpticalBlack mask = OpticalBlack.Of(evidence[0])!;

        Assert.InRange(mask.DarkExcessDn.Value / mask.DarkExcessDn.StandardUncertainty, -MostDeviations, MostDeviations);
        Assert.DoesNotContain(IsoChecks.Examine(evidence), f => f.Code is FindingCode.BlackDrift or FindingCode.DarkLit);
    }

    [Theory]
    [InlineData(-2, "above")]
    [InlineData(3, "below")]
    public void MaskedPixels_WithABlackOfTheirOwn_AreANoteOfItsSize(double shiftDn, string side)
    {
        Finding finding = Assert.Single(RehearsedSet.Examine([], Masked with { MaskedBlackShiftDn = shiftDn }), f => f.Code == FindingCode.BlackDrift);

        Assert.Equal(FindingSeverity.Note, finding.Severity);
        Assert.Contains($"{side} the optical black", finding.Message, StringComparison.Ordinal);
        Assert.InRange(finding.Size!.Value, Math.Abs(shiftDn) - ToleranceDn, Math.Abs(shiftDn) + ToleranceDn);
    }

    [Fact]
    public void DarkFrames_ThatLightCameInto_RiseAboveTheMask()
    {
        // The flaw's size is green's mean in the longest dark frames; those of the shortest have next to none.
        const double LeakDn = 5;
        IReadOnlyList<IsoEvidence> evidence = RehearsedSet.Evidence([$"dark-lit={LeakDn}"], Masked with { ColourFilterArray = "monochrome" });
        OpticalBlack mask = OpticalBlack.Of(evidence[0])!;

        Assert.True(mask.IsLight);
        Assert.InRange(mask.LightDn, LeakDn - ToleranceDn, LeakDn + ToleranceDn);
        Assert.Contains(IsoChecks.Examine(evidence), f => f.Code == FindingCode.DarkLit);
    }

    [Fact]
    public void DarkCurrent_InBothAlike_IsNoLight()
    {
        IReadOnlyList<Finding> findings = RehearsedSet.Examine(["dark-current=10"], Masked);

        Assert.DoesNotContain(findings, f => f.Code is FindingCode.DarkLit or FindingCode.BlackDrift);
    }

    [Fact]
    public void BlackThatRises_ShowsInTheMaskOfLitFrames()
    {
        // Black rises over dark and lit frames; a dim lit level lies off the dark frames by less than all of it.
        const double RiseDn = 10;
        IReadOnlyList<IsoEvidence> evidence = RehearsedSet.Evidence([$"black-drift={RiseDn}"], Masked);
        OpticalBlack mask = OpticalBlack.Of(evidence[0])!;

        Assert.True(mask.IsLitShifted);
        Assert.InRange(Math.Abs(mask.LitShiftDn!.Value.Value), 1, RiseDn);
        Assert.Single(IsoChecks.Examine(evidence), f => f.Code == FindingCode.BlackDrift);
    }

    [Fact]
    public void FramesWithoutMaskedPixels_HaveNothingToCompare() => Assert.Null(OpticalBlack.Of(RehearsedSet.Evidence([])[0]));

    // Excess, growth (NaN for one exposure), colours told, coloured: light, and off for another reason.
    [Theory]
    [InlineData(0, 5, false, false, true, false)]
    [InlineData(0, 5, true, true, true, false)]
    [InlineData(0, 5, true, false, false, true)]
    [InlineData(0, -5, false, false, false, true)]
    [InlineData(3, 0, false, false, false, true)]
    [InlineData(3, double.NaN, false, false, true, false)]
    [InlineData(1, double.NaN, false, false, false, true)]
    [InlineData(0.15, 0.15, false, false, false, false)]
    public void Excess_ByGrowthColourAndSize_IsLightOrAnotherBlack(double excess, double growth, bool hasColours, bool isColoured, bool isLight, bool isDarkOff)
    {
        const double NoiseDn = 2;
        const double UncertaintyDn = 0.02;
        var mask = new OpticalBlack(
            new Estimate(excess, UncertaintyDn), double.IsNaN(growth) ? null : new Estimate(growth, UncertaintyDn), null, NoiseDn, hasColours, isColoured);

        Assert.Equal((isLight, isDarkOff), (mask.IsLight, mask.IsDarkOff));
    }
}
