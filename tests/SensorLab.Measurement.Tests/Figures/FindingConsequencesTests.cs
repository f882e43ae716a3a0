using SensorLab.FlawMatrix.Foreign;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Pixels.Tests;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Figures;

public sealed class FindingConsequencesTests
{
    /// <summary>Read noise of the rehearsed body in DN: 3.1 e⁻ at 2.6 e⁻/DN.</summary>
    private const double ReadNoiseDn = 3.1 / 2.6;

    private static readonly IsoProfile Clean = RehearsedSet.Evidence([])[0].Profile;

    [Fact]
    public void Applied_NothingFound_LeavesTheIsoAsItIs() => Assert.Same(Clean, FindingConsequences.Applied([Clean], [])[0]);

    [Fact]
    public void Applied_FindingOfAnotherIso_LeavesTheIsoAsItIs() => Assert.Same(Clean, Under(Found(FindingCode.RawFiltered, FindingSeverity.Warning, 0.3) with { Iso = 400 }));

    [Fact]
    public void Applied_SmoothedRawData_BoundsAndLeavesOutSoThatTheTruthIsHeld()
    {
        IReadOnlyList<IsoEvidence> evidence = RehearsedSet.Evidence(["raw-filtered=0.3"]);

        IsoProfile left = FindingConsequences.Applied([evidence[0].Profile], IsoChecks.Examine(evidence))[0];

        Assert.All(left.Channels, c =>
        {
            Assert.Null(c.GainElectronPerDn);
            Assert.Null(c.ReadNoiseElectron);
            Assert.Null(c.SaturationElectron);
            Assert.Null(c.DsnuElectron);
            Assert.InRange(c.ReadNoiseDn!.AtLeast!.Value, 0, ReadNoiseDn);
            Assert.NotNull(c.SaturationDn?.Value);
            Assert.NotNull(c.BlackLevelDn?.Value);
        });
        Assert.All(left.Latitude.BelowEv.Zip(Clean.Latitude.BelowEv), ends =>
        {
            Assert.True(ends.First.PerPixel!.AtMost > ends.Second.PerPixel!.Value, $"SNR {ends.First.Snr}");
            Assert.True(ends.First.SpanEv!.AtMost > ends.Second.SpanEv!.Value);
        });
        Assert.All(left.SnrCurve, p => Assert.NotNull(p.SnrTotal?.AtMost));
        Assert.Equal(evidence[0].Profile.Latitude.AboveEv, left.Latitude.AboveEv);
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.2)]
    public void Applied_SharpenedRawData_BoundsFromTheOtherSideSoThatTheTruthIsHeld(double weight)
    {
        IReadOnlyList<IsoEvidence> evidence = RehearsedSet.Evidence(ForeignFlaws.Named("sharpened"), weight);

        IsoProfile left = FindingConsequences.Applied([evidence[0].Profile], IsoChecks.Examine(evidence))[0];

        Assert.All(left.Channels, c =>
        {
            Assert.Null(c.GainElectronPerDn);
            Assert.Null(c.ReadNoiseElectron);
            Assert.True(c.ReadNoiseDn!.AtMost > ReadNoiseDn);
            Assert.NotNull(c.BlackLevelDn?.Value);
        });
        Assert.All(left.Channels.Zip(Clean.Channels), c => Assert.True(c.First.SaturationDn!.AtMost >= c.Second.SaturationDn!.Value));
        Assert.All(left.Latitude.BelowEv.Zip(Clean.Latitude.BelowEv), ends => Assert.True(ends.First.PerPixel!.AtLeast < ends.Second.PerPixel!.Value, $"SNR {ends.First.Snr}"));
        Assert.All(left.SnrCurve, p => Assert.NotNull(p.SnrTotal?.AtLeast));
        Assert.InRange(Clean.Latitude.AboveEv!.Value!.Value, left.Latitude.AboveEv!.Lower95!.Value, left.Latitude.AboveEv.Upper95!.Value);
    }

    // 1 % of the neighbours: 2 % of the variance.
    [Theory]
    [InlineData(0.01)]
    [InlineData(-0.01)]
    public void Applied_FilteringThatMayBeChance_WidensByWhatItMayHaveDone(double share)
    {
        Figure before = Clean.Channels[0].GainElectronPerDn!;

        Figure after = Under(Found(FindingCode.RawFiltered, FindingSeverity.Note, share)).Channels[0].GainElectronPerDn!;

        Assert.Equal(before.Value, after.Value);
        Assert.Equal(double.Hypot(before.StandardUncertainty!.Value, 0.02 * before.Value!.Value), after.StandardUncertainty!.Value, 1e-12);
        Assert.Equal(double.Hypot(before.Upper95!.Value - before.Value.Value, 1.959963984540054 * 0.02 * before.Value.Value), after.Upper95!.Value - after.Value!.Value, 1e-12);
    }

    /// <summary>Signals a fifth too large at saturation, in proportion: of that 12 % lie at the most, levels being as far apart as they are, between a twentieth and seven tenths of it, where noise is fitted.</summary>
    [Theory]
    [InlineData(FindingCode.LightDrift, true, true)]
    [InlineData(FindingCode.LightDrift, false, false)]
    [InlineData(FindingCode.ResponseNonlinear, true, true)]
    [InlineData(FindingCode.ResponseNonlinear, false, true)]
    public void Applied_SignalsThatLeaveExposure_WidenGainWhereNothingTellsWhoseItIs(string code, bool isAlone, bool isWidened)
    {
        IsoProfile iso = isAlone ? Clean with { Channels = [Clean.Channels[0]] } : Clean;
        (double black, double full) = (iso.Channels[0].BlackLevelDn!.Value!.Value, iso.Channels[0].SaturationDn!.Value!.Value - iso.Channels[0].BlackLevelDn!.Value!.Value);
        iso = iso with { Levels = [.. iso.Levels.Select(l => l.Role == RoleName.Bracket ? l with { Channels = [.. l.Channels.Select(c => c with { MeanDn = c.MeanDn + (0.2 * (c.MeanDn - black) * (c.MeanDn - black) / full) })] } : l)] };

        IsoProfile left = FindingConsequences.Applied([iso], [Found(code, FindingSeverity.Warning, 0.1) with { SizeUnit = "ev" }])[0];

        (Figure before, Figure after) = (iso.Channels[0].GainElectronPerDn!, left.Channels[0].GainElectronPerDn!);
        double share = Math.Sqrt(Math.Max(0, Math.Pow(after.StandardUncertainty!.Value, 2) - Math.Pow(before.StandardUncertainty!.Value, 2))) / before.Value!.Value;
        Assert.InRange(share * Math.Sqrt(3), isWidened ? 0.08 : 0, isWidened ? 0.13 : 0);
    }

    [Fact]
    public void Applied_TexturedTarget_TakesPatternForAnUpperBoundAndShadowsForLowerOnes()
    {
        IsoProfile left = Under(Found(FindingCode.TargetTextured, FindingSeverity.Warning, 0.01));

        Assert.All(left.Channels, c => Assert.NotNull(c.PrnuPercent!.AtMost));
        Assert.All(left.Latitude.BelowEv.Zip(Clean.Latitude.BelowEv), ends => Assert.True(ends.First.PerPixel!.AtLeast < ends.Second.PerPixel!.Lower95));
        Assert.True(left.Latitude.AboveEv!.StandardUncertainty > 0.01 / Math.Log(2));
        Assert.Equal(Clean.Channels[0].GainElectronPerDn, left.Channels[0].GainElectronPerDn);
    }

    [Fact]
    public void Applied_FindingOfOneChannel_LeavesTheOthersAsTheyAre()
    {
        IsoProfile left = Under(Found(FindingCode.RawFiltered, FindingSeverity.Warning, 0.3) with { Channel = "B" });

        Assert.Null(left.Channels.Single(c => c.Name == "B").GainElectronPerDn);
        Assert.NotNull(left.Channels.Single(c => c.Name == "R").GainElectronPerDn);
    }

    [Theory]
    [InlineData(0.001, true)]
    [InlineData(0.05, false)]
    public void Applied_UnknownNoise_LeavesElectronsOutWhereItIsMostOfAll(double wavering, bool isLeft) =>
        Assert.Equal(isLeft, Under(Found(FindingCode.ModelRejected, FindingSeverity.Warning, wavering)).Channels[0].GainElectronPerDn is not null);

    // A bound on the other side tells nothing.
    [Fact]
    public void Applied_BoundOfTheOtherSide_IsAbsent()
    {
        IsoProfile bounded = Clean with { Channels = [.. Clean.Channels.Select(c => c with { ReadNoiseDn = Figure.UpperBound(1) })] };

        IsoProfile left = FindingConsequences.Applied([bounded], [Found(FindingCode.RawFiltered, FindingSeverity.Warning, 0.3)])[0];

        Assert.All(left.Channels, c => Assert.Null(c.ReadNoiseDn));
    }

    [Fact]
    public void Applied_FewerBitsStoredInMore_NeedsNoneAndHoldsTheTruth()
    {
        ForeignFlaw flaw = ForeignFlaws.Named("gaps of codes");
        IReadOnlyList<IsoEvidence> evidence = RehearsedSet.Evidence(flaw, 4);

        IReadOnlyList<Finding> found = IsoChecks.Examine(evidence);

        Assert.Contains(found, f => f.Code == FindingCode.GainDigital);
        Assert.DoesNotContain(found, f => f.Code is FindingCode.PixelsHot or FindingCode.BlackClipped or FindingCode.ModelRejected);
        Assert.All(FindingConsequences.Applied([evidence[0].Profile], found)[0].Channels, c => Assert.InRange(c.ReadNoiseDn!.Value!.Value, 0.97 * ReadNoiseDn, 1.03 * ReadNoiseDn));
    }

    /// <summary>
    /// A single code that is missing beside black: at 4 DN the one below its middle, a fifth of the dark values, which took 2 % of
    /// gain along; at 8 DN two at the rim of the distribution, which the mean step does not show.
    /// </summary>
    [Theory]
    [InlineData(4)]
    [InlineData(8)]
    public void Applied_FewUnevenDarkCodes_HoldsTheTruth(int widest)
    {
        VirtualBody body = RehearsedSet.SmallBody with { ColourFilterArray = Patterns.QuadName, Shutter = new ShutterSeries { StepsPerStop = 2 }, PatternSeed = 2003 };
        IReadOnlyList<IsoEvidence> evidence = RehearsedSet.Evidence([$"raw-companded={widest}"], body, 2003);

        IsoProfile left = FindingConsequences.Applied([evidence[0].Profile], IsoChecks.Examine(evidence))[0];

        Assert.All(left.Channels, c =>
        {
            Assert.InRange(Deviations(c.BlackLevelDn!, body.BlackLevelDn), -3, 3);
            Assert.InRange(Deviations(c.GainElectronPerDn!, body.At(100).GainElectronPerDn), -4, 4);
            Assert.InRange(Deviations(c.ReadNoiseElectron!, body.At(100).ReadNoiseElectron), -4, 4);
        });
    }

    private static double Deviations(Figure figure, double truth) => (figure.Value!.Value - truth) / figure.StandardUncertainty!.Value;

    private static IsoProfile Under(Finding finding) => FindingConsequences.Applied([Clean], [finding])[0];

    private static Finding Found(string code, FindingSeverity severity, double size) =>
        new() { Code = code, Severity = severity, Iso = Clean.Iso, Size = size, SizeUnit = "relative", Message = "It is so.", Remedy = "None." };
}
