using SensorLab.FlawMatrix.Foreign;
using SensorLab.Frames;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Findings;
using SensorLab.Pixels.Tests;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>Flaws by other laws than the catalogue's are named too: findings must not hang on how our own rehearsals make them.</summary>
public sealed class ForeignFlawTests
{
    [Theory]
    [InlineData("sine of random phase", 0.03)]
    [InlineData("blobs", 0.02)]
    [InlineData("dust", 0.6)]
    [InlineData("shake", 0.01)]
    [InlineData("even leak", 1)]
    [InlineData("leak in one frame", 1)]
    [InlineData("warm pixels", 1000)]
    [InlineData("correlated rows", 0.5)]
    [InlineData("pickup", 5)]
    [InlineData("black walks", 1)]
    [InlineData("cubic response", 0.05)]
    [InlineData("knee", 0.3)]
    [InlineData("knee", 0.7)]
    [InlineData("excess noise", 0.02)]
    [InlineData("square-root curve", 1000)]
    [InlineData("three by three", 0.02)]
    [InlineData("three by three", 0.2)]
    [InlineData("smoothed shadows", 1)]
    [InlineData("sharpened", 0.02)]
    [InlineData("crosstalk taken out", 0.05)]
    [InlineData("squares of four", 8)]
    [InlineData("lag over colours", 0.015)]
    [InlineData("pairs share noise", 2)]
    [InlineData("warm column", 100)]
    [InlineData("black taken off", 2)]
    [InlineData("push", 1.7)]
    [InlineData("two converters", 0.004)]
    [InlineData("dead column", 1)]
    [InlineData("weak column", 0.05)]
    [InlineData("bright column", 5)]
    [InlineData("dead row", 1)]
    [InlineData("glowing corner", 12)]
    [InlineData("glowing edge", 12)]
    [InlineData("black of lit frames", 0.3)]
    [InlineData("one loud dark frame", 2)]
    [InlineData("one banded frame", 2)]
    [InlineData("photosites bend apart", 0.02)]
    [InlineData("lit frame among the dark", 0.01)]
    [InlineData("columns by threes", 2)]
    [InlineData("capped metered frame", 1)]
    public void FlawByAnotherLaw_OfVisibleSize_IsNamed(string name, double size)
    {
        ForeignFlaw flaw = ForeignFlaws.Named(name);

        string[] found = [.. RehearsedSet.Examine(flaw, size).Select(f => f.Code)];

        Assert.True(found.Intersect(flaw.Codes).Any(), $"found: {string.Join(", ", found)}");
    }

    /// <summary>A frame under the cap among readings of one frame each is told, however little it shows; and middle grey then is anywhere.</summary>
    [Fact]
    public void CappedMeteredFrame_AmongReadingsOfOneFrame_IsDoubtedAndWidensTheEnds()
    {
        VirtualBody body = RehearsedSet.SmallBody with { Shooting = new ShootingHabits { MeterReadings = 3, FramesPerReading = 1 } };
        IsoEvidence evidence = RehearsedSet.Evidence(ForeignFlaws.Named("capped metered frame"), 1, body)[0];
        IReadOnlyList<Finding> found = IsoChecks.Examine([evidence]);

        Assert.True(Assert.Single(found, f => f.Code == FindingCode.MeteredDoubtful).Size > 5);
        Assert.True(FindingConsequences.Applied([evidence.Profile], found)[0].Latitude.AboveEv!.StandardUncertainty > 1);
    }

    /// <summary>Lit frames without photons' noise give no line: gain and all that hangs on it is absent, and that is said.</summary>
    [Fact]
    public void NoiselessLight_GivesNoLine_IsSaid()
    {
        var flaw = new ForeignFlaw("noiseless light", "lit frames hold one code", [], [1], scene => frame => ForeignScene.IsLit(frame)
            ? scene.WithCodes(frame, (_, _, code) => Math.Min(code, Math.Round(512 + (frame.Exposure.ExposureSeconds * 1000) + (frame.Number % 2))))
            : frame);

        IReadOnlyList<Finding> found = RehearsedSet.Examine(flaw, 1);

        Assert.Contains(found, f => f.Code == FindingCode.ModelRejected && f.Message.Contains("gives no gain", StringComparison.Ordinal));
    }

    /// <summary>Codes of two channels that were multiplied, where noise covers few of them, are no other recording depth; nor are frames that are clipped at a code each.</summary>
    [Theory]
    [InlineData("two channels multiplied", 0.12, true)]
    [InlineData("clip wanders", 10, false)]
    public void FewCodes_OfAnotherCause_AreNoOtherDepth(string name, double size, bool coarse)
    {
        VirtualBody body = coarse ? RehearsedSet.CoarseBody : RehearsedSet.SmallBody with { Shooting = new ShootingHabits { FramesPerLevel = 4 } };

        Assert.DoesNotContain(RehearsedSet.Examine(ForeignFlaws.Named(name), size, body), f => f.Code == FindingCode.DepthMixed);
    }

    [Theory]
    [InlineData("knee", 0.3, FindingCode.ResponseNonlinear)]
    [InlineData("knee", 0.7, FindingCode.ResponseNonlinear)]
    [InlineData("pickup", 5, FindingCode.NoiseBanded)]
    public void FlawByAnotherLaw_OnAMonochromeBody_IsNamed(string name, double size, string code)
    {
        IReadOnlyList<Finding> found = RehearsedSet.Examine(ForeignFlaws.Named(name), size, SmallMonochrome);

        Assert.Contains(code, found.Select(f => f.Code));
    }

    /// <summary>Codes that noise does not cover tell black of frames that differ, by level or by frame: it lies within five of its uncertainties all the same, and so do shadow ends of the clean set.</summary>
    [Theory]
    [InlineData("dark sinks", 0.5)]
    [InlineData("dark sinks", 5)]
    [InlineData("sensor cools", 10)]
    [InlineData("black of long times lower", 0.5)]
    public void BlackOfCoarseCodes_ThatMoves_HoldsTheTruth(string name, double size)
    {
        VirtualBody body = RehearsedSet.CoarseBody with { Shooting = new ShootingHabits { DarkFrames = 8 } };
        IReadOnlyList<IsoEvidence> isos = RehearsedSet.Evidence(ForeignFlaws.Named(name), size, body);
        IsoProfile clean = RehearsedSet.Evidence([], body)[0].Profile;

        IsoProfile iso = FindingConsequences.Applied(isos.Select(i => i.Profile), IsoChecks.Examine(isos))[0];

        Assert.All(iso.Channels, c => AssertHolds(body.BlackLevelDn, c.BlackLevelDn!));
        foreach ((ShadowEnd own, ShadowEnd other) in iso.Latitude.BelowEv.Zip(clean.Latitude.BelowEv).Where(e => e.First.PerPixel?.Value is not null))
        {
            AssertHolds(other.PerPixel!.Value!.Value, own.PerPixel!);
        }
    }

    /// <summary>Bright frames alone are smoothed, and one channel's noise falls off as behind a response that bends: exposures say that it does not, and the bright end stays where it is.</summary>
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.3)]
    public void SmoothedHighlightsOfOneChannel_LeaveABrightEndThatHoldsTheTruth(double weight)
    {
        double truth = RehearsedSet.Evidence([], SmallMonochrome)[0].Profile.Latitude.AboveEv!.Value!.Value;

        AssertHolds(truth, RehearsedSet.Evidence(ForeignFlaws.Named("smoothed highlights"), weight, SmallMonochrome)[0].Profile.Latitude.AboveEv!);
    }

    /// <summary>Radiation leaves a track in every fifth frame or so, whose photosites go together as no filter makes them: gain stands, and nothing is said of one.</summary>
    [Theory]
    [InlineData(0.2)]
    [InlineData(1)]
    public void TracksOfRadiation_AreNoFilter(double tracks) =>
        Assert.DoesNotContain(FindingCode.RawFiltered, RehearsedSet.Examine(ForeignFlaws.Named("particles"), tracks).Select(f => f.Code));

    /// <summary>A lamp that reddens is named, and a bent response under it is measured as under any other.</summary>
    [Theory]
    [InlineData("lamp reddens", 0.05, FindingCode.LightDrift)]
    [InlineData("bent under a lamp that reddens", 0.05, FindingCode.LightDrift, FindingCode.ResponseNonlinear)]
    [InlineData("bent under a lamp that reddens", 0.01, FindingCode.ResponseNonlinear)]
    public void LightThatChangesItsColour_IsNotTheSensors(string name, double size, params string[] codes)
    {
        string[] found = [.. RehearsedSet.Examine(ForeignFlaws.Named(name), size).Select(f => f.Code)];

        Assert.Equal(codes.Order(), found.Intersect([FindingCode.LightDrift, FindingCode.ResponseNonlinear, FindingCode.ModelRejected, FindingCode.ExposureInexact]).Order());
    }

    /// <summary>One channel does not tell whether sensor, shutter or lamp bends the signals: gain holds 2.6 e⁻/DN within three of its uncertainties all the same.</summary>
    [Theory]
    [InlineData("wave", 0.05)]
    [InlineData("bulge", 0.2)]
    public void BentSignalsOfOneChannel_LeaveGainThatHoldsTheTruth(string name, double size)
    {
        IReadOnlyList<IsoEvidence> isos = RehearsedSet.Evidence(ForeignFlaws.Named(name), size, SmallMonochrome);

        Figure gain = FindingConsequences.Applied(isos.Select(i => i.Profile), IsoChecks.Examine(isos))[0].Channels[0].GainElectronPerDn!;

        Assert.InRange(2.6, gain.Value!.Value - (3 * gain.StandardUncertainty!.Value), gain.Value.Value + (3 * gain.StandardUncertainty.Value));
        Assert.True(gain.StandardUncertainty > 0.01 * gain.Value);
    }

    /// <summary>White light in the dark frames adds as much to every channel: channels of different sensitivity tell where the lit frames' own zero lies, and no shutter is suspected.</summary>
    [Fact]
    public void WhiteLightInAllDarkFrames_IsSizedByTheLitFramesOwnZero()
    {
        const double leakDn = 1.5;
        var leak = new ForeignFlaw("white leak", "the same light in all dark frames and channels (DN)", [FindingCode.DarkLit], [leakDn], scene => frame =>
            frame.Role == FrameRole.Dark ? frame with { Exposure = frame.Exposure with { BlackShiftDn = scene.Size } } : frame);

        Finding found = Assert.Single(RehearsedSet.Examine(leak, leakDn), f => f.Code == FindingCode.DarkLit);

        Assert.Equal(leakDn, found.Size!.Value, 0.2);
        Assert.DoesNotContain("exposure is short", found.Message, StringComparison.Ordinal);
    }

    /// <summary>A door that opened: one dark frame has light in the lamp's colour, and is named; a black that walks moves all channels alike and is no light.</summary>
    [Theory]
    [InlineData("leak in one frame", true)]
    [InlineData("black walks", false)]
    public void DarkFrameThatIsBrighter_IsLitWhereItHasTheLightsColour(string name, bool isLit)
    {
        Finding[] found = [.. RehearsedSet.Examine(ForeignFlaws.Named(name), 1).Where(f => f.Code == FindingCode.DarkLit)];

        Assert.Equal(isLit ? 1 : 0, found.Length);
        Assert.All(found, f => Assert.Equal(1, f.Size!.Value, 0.1));
        Assert.All(found, f => Assert.Contains("alone has it", f.Message, StringComparison.Ordinal));
    }

    /// <summary>Light in dark frames makes black and read noise uncertain, by as much as it may have moved them: both hold the truth of 512.25 DN and 1.2 DN.</summary>
    [Theory]
    [InlineData("even leak", 1)]
    [InlineData("even leak", 10)]
    [InlineData("leak in one frame", 1)]
    public void LightInDarkFrames_LeavesFiguresThatHoldTheTruth(string name, double size)
    {
        IReadOnlyList<IsoEvidence> isos = RehearsedSet.Evidence(ForeignFlaws.Named(name), size, RehearsedSet.SmallBody);

        IsoProfile left = FindingConsequences.Applied(isos.Select(i => i.Profile), IsoChecks.Examine(isos))[0];

        Assert.All(left.Channels, c => Assert.InRange(512.25, c.BlackLevelDn!.Lower95!.Value, c.BlackLevelDn.Upper95!.Value));
        Assert.All(left.Channels, c => Assert.InRange(1.2, c.ReadNoiseDn!.Lower95!.Value, c.ReadNoiseDn.Upper95!.Value));
    }

    /// <summary>What is left of the figures under a finding, bounds included, holds what the same set gives without the flaw; what cannot be told is left out.</summary>
    [Theory]
    [InlineData("cubic response", 0.2, "RGGB")]
    [InlineData("three by three", 0.5, "RGGB")]
    [InlineData("three by three", 0.5, Patterns.SixBySixName)]
    [InlineData("eclipse", 0.5, "RGGB")]
    [InlineData("one channel bends", 0.05, "RGGB")]
    [InlineData("leak in one frame", 10, "monochrome")]
    public void FlawByAnotherLaw_LeavesNothingThatExcludesTheTruth(string name, double size, string filters)
    {
        VirtualBody body = RehearsedSet.SmallBody with { ColourFilterArray = filters };
        IsoProfile clean = RehearsedSet.Evidence([], body)[0].Profile;
        IReadOnlyList<IsoEvidence> isos = RehearsedSet.Evidence(ForeignFlaws.Named(name), size, body);

        IsoProfile left = FindingConsequences.Applied(isos.Select(i => i.Profile), IsoChecks.Examine(isos))[0];

        AssertHolds(left.Latitude.AboveEv, clean.Latitude.AboveEv);
        Assert.All(left.Latitude.BelowEv.Zip(clean.Latitude.BelowEv), b => AssertHolds(b.First.PerPixel, b.Second.PerPixel));
        Assert.All(left.Channels.Zip(clean.Channels).Where(c => name != "one channel bends" || c.First.Name != "R"), c =>
        {
            AssertHolds(c.First.GainElectronPerDn, c.Second.GainElectronPerDn);
            AssertHolds(c.First.ReadNoiseDn, c.Second.ReadNoiseDn);
        });
    }

    /// <summary>What the response does beside its law, as channels of different sensitivity agree, is in gain, and in gain's uncertainty: 2.6 e⁻/DN lie within three of it.</summary>
    [Theory]
    [InlineData(0.1, Patterns.SixBySixName)]
    [InlineData(0.2, "RGGB")]
    public void ResponseThatDepartsFromItsLaw_LeavesGainThatHoldsTheTruth(double bulge, string filters)
    {
        IReadOnlyList<IsoEvidence> isos = RehearsedSet.Evidence(ForeignFlaws.Named("bulge"), bulge, RehearsedSet.SmallBody with { ColourFilterArray = filters });

        IsoProfile left = FindingConsequences.Applied(isos.Select(i => i.Profile), IsoChecks.Examine(isos))[0];

        Assert.All(left.Channels.Select(c => c.GainElectronPerDn!), g => Assert.InRange(2.6, g.Value!.Value - (3 * g.StandardUncertainty!.Value), g.Value.Value + (3 * g.StandardUncertainty.Value)));
    }

    /// <summary>A response that channels of different sensitivity disagree on grows over a bracket as a drift does, and is none; at the most its colour is said to change.</summary>
    [Theory]
    [InlineData("cubic response", 0.2)]
    [InlineData("one channel bends", 0.05)]
    [InlineData("one channel bends", 0.2)]
    [InlineData("subranges", 0.1)]
    [InlineData("bulge", 0.1)]
    public void ResponseThatDepartsFromItsLaw_IsNoDriftOfTheLight(string name, double size) =>
        Assert.DoesNotContain(RehearsedSet.Examine(ForeignFlaws.Named(name), size), f => f is { Code: FindingCode.LightDrift, Severity: not FindingSeverity.Note });

    /// <summary>By five deviations of a figure and the other one's: some twenty are compared in a set.</summary>
    private static void AssertHolds(Figure? left, Figure? clean)
    {
        double truth = clean!.Value!.Value;
        double reach = 5 * double.Hypot(left?.StandardUncertainty ?? 0, clean.StandardUncertainty!.Value);
        Assert.InRange(truth, left?.AtLeast - reach ?? (left?.Value - reach) ?? double.NegativeInfinity, left?.AtMost + reach ?? (left?.Value + reach) ?? double.PositiveInfinity);
    }

    /// <summary>One of the short dark frames (2) or of the long ones (4): wherever it lies, it is named alone, and no figure excludes the truth.</summary>
    [Theory]
    [InlineData(2, 2)]
    [InlineData(3, 2)]
    [InlineData(3, 20)]
    [InlineData(4, 2)]
    [InlineData(4, 20)]
    public void LightInOneDarkFrame_WhereverItLies_IsNamedAndHeld(int number, double lightDn)
    {
        var leak = new ForeignFlaw("a door", "light in one dark frame (green DN)", [FindingCode.DarkLit], [lightDn], scene => frame => frame.Number == number
            ? frame with { Exposure = frame.Exposure with { LightElectron = scene.Size * frame.Exposure.Setting.GainElectronPerDn } }
            : frame);
        IReadOnlyList<IsoEvidence> isos = RehearsedSet.Evidence(leak, lightDn, RehearsedSet.SmallBody);
        IReadOnlyList<Finding> findings = IsoChecks.Examine(isos);

        Assert.Contains($"P{number:0000}", Assert.Single(Assert.Single(findings, f => f.Code == FindingCode.DarkLit).Frames), StringComparison.Ordinal);
        IsoProfile left = FindingConsequences.Applied(isos.Select(i => i.Profile), findings)[0];
        Assert.All(left.Channels, c => Assert.InRange(512.25, c.BlackLevelDn!.Lower95!.Value, c.BlackLevelDn.Upper95!.Value));
        Assert.All(left.Channels, c => Assert.InRange(1.2, c.ReadNoiseDn!.Lower95!.Value, c.ReadNoiseDn.Upper95!.Value));
    }

    /// <summary>A hundredth of a DN in one dark frame stands out of large frames' noise, and moves black by less than matters; what small frames leave open, and matters, is said.</summary>
    [Theory]
    [InlineData(240, 160, 0.05, 1)]
    [InlineData(960, 640, 0.01, 0)]
    public void WhatDarkFramesLeaveOpen_IsSaidWhereItMatters(int width, int height, double leakDn, int notes)
    {
        VirtualBody body = RehearsedSet.SmallBody with { WidthPixels = width, HeightPixels = height };

        Finding[] found = [.. RehearsedSet.Examine(ForeignFlaws.Named("leak in one frame"), leakDn, body).Where(f => f.Code == FindingCode.BlackDrift)];

        Assert.Equal(notes, found.Length);
        Assert.All(found, f => Assert.Contains("leave open", f.Message, StringComparison.Ordinal));
    }

    /// <summary>Light that falls by 2 % between the two frames of a reading moves middle grey by less than it may be off; by 5 % it is named.</summary>
    [Theory]
    [InlineData(0.02, false)]
    [InlineData(0.05, true)]
    public void LightThatFallsWithinAReading_IsNamedFromAFewPercentOn(double fall, bool isNamed)
    {
        var falling = new ForeignFlaw("falling light", "the last metered frame sees less light (relative)", [FindingCode.MeteredDoubtful], [fall], scene =>
        {
            int last = scene.Plan.Frames.Where(f => f.Role == FrameRole.Metered).Max(f => f.Number);
            return frame => frame.Number == last ? ForeignScene.Dimmed(frame, 1 - scene.Size) : frame;
        });

        Assert.Equal(isNamed, RehearsedSet.Examine(falling, fall).Any(f => f.Code == FindingCode.MeteredDoubtful));
    }

    /// <summary>The meter's step of a third of a stop, and what fields differ by under other lamps: readings half a stop apart contradict each other.</summary>
    [Theory]
    [InlineData(0.3, false)]
    [InlineData(0.6, true)]
    public void ReadingsThatTheMetersStepDoesNotExplain_AreNamed(double apartEv, bool isNamed)
    {
        var brighter = new ForeignFlaw("brighter reading", "metered frames of the longest time see more light (EV)", [FindingCode.MeteredDoubtful], [apartEv], scene =>
        {
            double longest = scene.Plan.Frames.Where(f => f.Role == FrameRole.Metered).Max(f => f.Exposure.ExposureSeconds);
            return frame => frame.Role == FrameRole.Metered && frame.Exposure.ExposureSeconds == longest ? ForeignScene.Dimmed(frame, Math.Pow(2, scene.Size)) : frame;
        });

        Finding[] found = [.. RehearsedSet.Examine(brighter, apartEv).Where(f => f.Code == FindingCode.MeteredDoubtful)];

        Assert.Equal(isNamed ? 1 : 0, found.Length);
        Assert.All(found, f => Assert.Contains("readings differ", f.Message, StringComparison.Ordinal));
    }

    // What is read one after another keeps a little of the one before: no noise reduction, and nothing to shoot again.
    [Theory]
    [InlineData("RGGB", 0.015, FindingSeverity.Note)]
    [InlineData("RGGB", 0.05, FindingSeverity.Warning)]
    [InlineData(Patterns.SixBySixName, 0.015, FindingSeverity.Note)]
    [InlineData(Patterns.SixBySixName, 0.05, FindingSeverity.Warning)]
    [InlineData(Patterns.QuadName, 0.05, FindingSeverity.Warning)]
    public void NoiseSharedAlongRowsAlone_IsToldWithItsDirection(string filters, double size, FindingSeverity severity)
    {
        Finding finding = Assert.Single(
            RehearsedSet.Examine(ForeignFlaws.Named("lagging readout"), size, RehearsedSet.SmallBody with { ColourFilterArray = filters }),
            f => f.Code == FindingCode.RawFiltered);

        Assert.Equal(severity, finding.Severity);
        Assert.Contains("along the rows", finding.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("Shoot the bracket again", finding.Remedy, StringComparison.Ordinal);
        Assert.InRange(finding.Size!.Value, 0.7 * size, 1.3 * size);
    }

    /// <summary>What replaces or smooths by photosites a whole repeat of the filters away passes nearer neighbours of the colour by.</summary>
    [Theory]
    [InlineData("median", 0.2, Patterns.SixBySixName)]
    [InlineData("smoothed shadows", 1, Patterns.SixBySixName)]
    [InlineData("median", 0.2, Patterns.QuadName)]
    public void NoiseSharedOverRepeats_IsNamed(string name, double size, string filters) => Assert.Contains(
        RehearsedSet.Examine(ForeignFlaws.Named(name), size, RehearsedSet.SmallBody with { ColourFilterArray = filters }),
        f => f is { Code: FindingCode.RawFiltered, Severity: FindingSeverity.Warning });

    /// <summary>What next neighbours share in a group of 2 × 2, and what they do not over its edge, cancel out in a weave of a repeat's size.</summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.05)]
    public void WeaveOfARepeatsSize_IsNamedWithItsSize(double size)
    {
        Finding finding = Assert.Single(
            RehearsedSet.Examine(ForeignFlaws.Named("weave"), size, RehearsedSet.SmallBody with { ColourFilterArray = Patterns.QuadName }),
            f => f.Code == FindingCode.TargetTextured);

        Assert.InRange(finding.Size!.Value, 0.8 * size, 1.2 * size);
    }

    // One column of 240 took PRNU up by a factor of five, black up by a twentieth of a DN, and the clean end away.
    [Theory]
    [InlineData("dead column", 1)]
    [InlineData("weak column", 0.3)]
    [InlineData("bright column", 60)]
    [InlineData("dead row", 1)]
    public void LineThatDoesNotAnswer_IsKeptOutOfTheFigures(string name, double size)
    {
        ChannelProfile[] clean = [.. RehearsedSet.Evidence([])[0].Profile.Channels];

        ChannelProfile[] found = [.. RehearsedSet.Evidence(ForeignFlaws.Named(name), size)[0].Profile.Channels];

        Assert.All(found.Zip(clean), c =>
        {
            Assert.InRange(c.First.PrnuPercent!.Value!.Value / c.Second.PrnuPercent!.Value!.Value, 1 - PrnuTolerance, 1 + PrnuTolerance);
            Assert.Equal(c.Second.BlackLevelDn!.Value!.Value, c.First.BlackLevelDn!.Value!.Value, LineBlackToleranceDn);
            Assert.Equal(c.Second.SaturationDn!.Value!.Value, c.First.SaturationDn!.Value!.Value, 1.0);
        });
    }

    // What sticks out in one place of a line is no dead line.
    [Theory]
    [InlineData("dust", 0.6)]
    [InlineData("blobs", 0.1)]
    [InlineData("pickup", 5)]
    [InlineData("edge", 0.2)]
    [InlineData("switched lamp", 1)]
    public void StructureThatIsNoLine_IsNotNamedSo(string name, double size) =>
        Assert.DoesNotContain(RehearsedSet.Examine(ForeignFlaws.Named(name), size), f => f.Code == FindingCode.LinesDead);

    // A mean that is cut off is no black: lit frames, whose own zero lies below it, do not say that the dark ones were lit.
    [Theory]
    [InlineData(0, false)]
    [InlineData(0, true)]
    [InlineData(1, false)]
    [InlineData(3, true)]
    public void DarkValuesCutOffAtAFloor_AreNamedAndNothingElse(double size, bool monochrome)
    {
        Finding finding = Assert.Single(RehearsedSet.Examine(
            ForeignFlaws.Named("floor"),
            size,
            monochrome ? SmallMonochrome with { BlackLevelDn = 128.5, BitDepth = 12, IsoSettings = [RehearsedSet.SmallBody.At(400) with { GainElectronPerDn = 1.9, ReadNoiseElectron = 6.5 }] } : null));

        Assert.Equal(FindingCode.BlackClipped, finding.Code);
    }

    // On so few photosites the filter cannot stand out of chance as far as a warning asks for.
    [Fact]
    public void WeakFilter_OnASmallFrame_IsNoted()
    {
        Finding finding = Assert.Single(
            RehearsedSet.Examine(ForeignFlaws.Named("three by three"), 0.02, SmallMonochrome),
            f => f.Code == FindingCode.RawFiltered);

        Assert.Equal(FindingSeverity.Note, finding.Severity);
        Assert.InRange(finding.Size!.Value, 0.015, 0.025);
    }

    // Light that tilts the other way in every second frame passes for columns that share noise, and took PRNU down with it.
    [Fact]
    public void LampThatMoves_BetweenFrames_LeavesTheFixedPatternRight()
    {
        ForeignFlaw flaw = ForeignFlaws.Named("lamp moves");
        double clean = Prnu(RehearsedSet.Evidence([])[0]);

        double moved = Prnu(RehearsedSet.Evidence(flaw, 0.02)[0]);

        Assert.InRange(moved / clean, 1 - PrnuTolerance, 1 + PrnuTolerance);
    }

    /// <summary>Beyond which a figure is wrong: the measurement model, section 11.</summary>
    private const double Deviations = 5;

    /// <summary>Four standard deviations of PRNU from 9600 photosites.</summary>
    private const double PrnuTolerance = 0.03;

    /// <summary>Four standard deviations of a mean of 38,400 values of 1.2 DN, of which one in 120 was replaced.</summary>
    private const double LineBlackToleranceDn = 0.03;

    internal static VirtualBody SmallMonochrome => RehearsedSet.SmallBody with { ColourFilterArray = "monochrome", WidthPixels = 120, HeightPixels = 80 };

    private static double Prnu(IsoEvidence evidence) => evidence.Profile.Channels[1].PrnuPercent!.Value!.Value;

    private static void AssertHolds(double truth, Figure figure) =>
        Assert.InRange(truth, figure.Value!.Value - (Deviations * figure.StandardUncertainty!.Value), figure.Value.Value + (Deviations * figure.StandardUncertainty.Value));
}
