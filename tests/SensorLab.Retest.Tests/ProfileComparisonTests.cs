using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Retest.Tests;

public sealed class ProfileComparisonTests
{
    private const int Judged = 4;

    private static readonly SensorProfile Before = Edited.Sample;

    [Fact]
    public void Comparison_OfAProfileWithItself_IsEquivalentInEveryJudgedFigure()
    {
        RetestResult result = Compare(Before);

        Assert.Equal(RetestVerdict.Equivalent, result.Verdict);
        Assert.Empty(result.Changes);
        Assert.All(result.Figures, f => Assert.Equal(f.Margin is null ? RetestVerdict.NotJudged : RetestVerdict.Equivalent, f.Verdict));
        Assert.Contains(result.Figures, f => f.Address == new FigureAddress(400, "B", "prnuPercent") && f.Verdict == RetestVerdict.NotJudged);
    }

    [Theory]
    [InlineData(1.03, RetestVerdict.Changed)]
    [InlineData(0.97, RetestVerdict.Changed)]
    [InlineData(1.01, RetestVerdict.Equivalent)]
    [InlineData(1.02, RetestVerdict.Undecided)]
    public void Comparison_OfGain_GoesByItsMargin(double factor, RetestVerdict verdict)
    {
        RetestResult result = Compare(Edited.Channels(400, c => c with { GainElectronPerDn = Edited.Moved(c.GainElectronPerDn!, factor: factor) }));

        ComparedFigure[] gains = [.. result.Figures.Where(f => f.Address is { Iso: 400, Name: "gainElectronPerDn" })];
        Assert.Equal(Judged, gains.Length);
        Assert.All(gains, g => Assert.Equal(verdict, g.Verdict));
        Assert.All(gains, g => Assert.Equal(factor - 1, g.Difference!.Value!.Value, 1e-12));
        Assert.Equal(verdict, result.Verdict);
        Assert.Equal(RetestVerdict.Equivalent, result.MeterTiedVerdict);
    }

    [Fact]
    public void Comparison_WithAMarginOfOnesOwn_GoesByThatOne()
    {
        SensorProfile after = Edited.Channels(400, c => c with { GainElectronPerDn = Edited.Moved(c.GainElectronPerDn!, factor: 1.03) });

        RetestResult result = ProfileComparison.Of(Before, after, [], RetestMargins.Default.With("gainElectronPerDn", new Margin(0.05, MarginUnit.Relative)));

        Assert.Equal(RetestVerdict.Equivalent, result.Verdict);
    }

    [Fact]
    public void Comparison_OfAnUnsureFigure_NamesTheFurtherPairsOrWhyNone()
    {
        SensorProfile after = Edited.Channels(100, c => c with { GainElectronPerDn = Edited.Moved(c.GainElectronPerDn!, uncertainty: 0.012 * c.GainElectronPerDn!.Value!.Value) });
        SensorProfile unsureBefore = after with { Body = Before.Body };

        ComparedFigure open = Compare(after).Figures.First(f => f.Verdict == RetestVerdict.Undecided);
        ComparedFigure hopeless = ProfileComparison.Of(unsureBefore, Edited.Updated(), [], RetestMargins.Default).Figures.First(f => f.Verdict == RetestVerdict.Undecided);

        Assert.Equal("gainElectronPerDn", open.Address.Name);
        Assert.True(open.FurtherPairs > 0);
        Assert.Null(open.FurtherPairsReason);
        Assert.Null(hopeless.FurtherPairs);
        Assert.Contains("cannot be shot again", hopeless.FurtherPairsReason, StringComparison.Ordinal);
    }

    [Fact]
    public void Comparison_OfBounds_IsUndecidedAndSaysThatFramesDoNotReachFarther()
    {
        RetestResult result = ProfileComparison.Of(SampleProfiles.Bounds(), SampleProfiles.Bounds(), [], RetestMargins.Default);

        ComparedFigure above = result.Figures.First(f => f.Address is { Channel: null, Name: "aboveEv" });
        Assert.Equal((RetestVerdict.Undecided, null), (above.Verdict, above.FurtherPairs));
        Assert.Contains("bound", above.FurtherPairsReason, StringComparison.Ordinal);
        Assert.Null(above.Difference);
    }

    [Fact]
    public void Comparison_OfABoundBeyondTheOtherSet_IsChanged()
    {
        SensorProfile after = Edited.Iso(100, p => p with { Latitude = p.Latitude with { AboveEv = Figure.LowerBound(4) } });

        ComparedFigure above = Compare(after).Figures.First(f => f.Address is { Iso: 100, Channel: null, Name: "aboveEv" });

        Assert.Equal(RetestVerdict.Changed, above.Verdict);
        Assert.Equal(0.8, above.Difference!.AtLeast!.Value, 1e-12);
    }

    [Fact]
    public void Comparison_WithRepeatsThatScatterAsMuch_DoesNotCallAMeterShiftChanged()
    {
        SensorProfile after = Edited.GreyMoved(0.15, "1.2");
        SensorProfile[] repeats = [Edited.GreyMoved(0.12, "1.1"), Edited.GreyMoved(-0.1, "1.1")];

        RetestResult alone = Compare(after);
        RetestResult withRepeats = ProfileComparison.Of(Before, after, repeats, RetestMargins.Default);

        Assert.Equal((RetestVerdict.Changed, RetestVerdict.Equivalent), (alone.MeterTiedVerdict, alone.MeterFreeVerdict));
        Assert.Equal((RetestVerdict.Undecided, RetestVerdict.Equivalent), (withRepeats.MeterTiedVerdict, withRepeats.MeterFreeVerdict));
        Assert.Contains(alone.Assumes, a => a.Contains("--repeat", StringComparison.Ordinal));
        Assert.DoesNotContain(withRepeats.Assumes, a => a.Contains("--repeat", StringComparison.Ordinal));
        Assert.NotNull(withRepeats.Figures.First(f => f.Address.Name == "aboveEv").Difference!.DegreesOfFreedom);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Comparison_OfBlackFourCodesUp_IsChangedHoweverManyRepeats(int count)
    {
        SensorProfile after = Edited.Channels(100, c => c with { BlackLevelDn = Edited.Moved(c.BlackLevelDn!, 4) });
        SensorProfile[] repeats = [.. Enumerable.Range(1, count).Select(i => Edited.GreyMoved(0.02 * i, "1.1"))];

        RetestResult result = ProfileComparison.Of(Before, after, repeats, RetestMargins.Default);

        Assert.All(result.Figures.Where(f => f.Address is { Iso: 100, Name: "blackLevelDn" }), f => Assert.Equal(RetestVerdict.Changed, f.Verdict));
        Assert.Equal(ChangeCode.BlackMoved, Assert.Single(result.Changes).Code);
    }

    [Theory]
    [InlineData(0, 0.0, 1.0)]
    [InlineData(1, 0.05, 1.01)]
    [InlineData(2, 0.12, 1.03)]
    [InlineData(4, -0.2, 1.02)]
    public void Comparison_OfAnything_JudgesByTheIntervalItPrints(int count, double greyEv, double gain)
    {
        SensorProfile after = Edited.GreyMoved(greyEv, "1.2");
        after = after with { IsoProfiles = [.. after.IsoProfiles.Select(p => p with { Channels = [.. p.Channels.Select(c => c with { GainElectronPerDn = Edited.Moved(c.GainElectronPerDn!, factor: gain) })] })] };
        SensorProfile[] repeats = [.. Enumerable.Range(1, count).Select(i => Edited.GreyMoved(0.03 * i * (i % 2 == 0 ? 1 : -1), "1.1"))];

        RetestResult result = ProfileComparison.Of(Before, after, repeats, RetestMargins.Default);

        Assert.All(result.Figures.Where(f => f.Margin is not null), f =>
        {
            (double low, double high, double margin) = (f.Difference!.Lower95!.Value, f.Difference.Upper95!.Value, f.Margin!.Value);
            RetestVerdict printed = low > margin || high < -margin ? RetestVerdict.Changed : low >= -margin && high <= margin ? RetestVerdict.Equivalent : RetestVerdict.Undecided;
            Assert.Equal(printed, f.Verdict);
            Assert.True(f.Difference.DegreesOfFreedom is null or >= 1);
        });
    }

    [Fact]
    public void Comparison_OfSetsWhoseOwnReadingsScatter_DoesNotCallAMeterShiftChanged()
    {
        SensorProfile before = TwoReadings(Before, 0.2);
        SensorProfile after = TwoReadings(Edited.GreyMoved(0.15, "1.2"), -0.15);

        RetestResult result = ProfileComparison.Of(before, after, [], RetestMargins.Default);

        Assert.Equal((RetestVerdict.Undecided, RetestVerdict.Equivalent), (result.MeterTiedVerdict, result.MeterFreeVerdict));
        Assert.Contains(result.Assumes, a => a.StartsWith("Metering by one habit", StringComparison.Ordinal));
    }

    [Fact]
    public void Comparison_OfAnotherRecordingMode_PutsItFirst()
    {
        SensorProfile after = Edited.Updated() with { RecordingMode = Before.RecordingMode with { NoiseReduction = "on", Shutter = "electronic" } };

        RetestResult result = Compare(after);

        Assert.Equal(["shutter mechanical before, electronic after"], result.ModeDifferences);
        Assert.StartsWith("Recording mode: shutter mechanical before, electronic after", result.Assumes[0], StringComparison.Ordinal);
        Assert.Contains("nothing found here is laid to the firmware", result.Assumes[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Comparison_OfTwoBodies_SaysWhatToDialIn()
    {
        SensorProfile second = Edited.GreyMoved(-0.3, "1.1") with { Body = Before.Body with { SerialNumber = "20418" } };

        RetestResult result = Compare(second);

        Assert.True(result.IsTwoBodies);
        Assert.Equal([100, 400, 1600], result.DialIn.Select(d => d.Iso));
        Assert.All(result.DialIn, d => Assert.Equal(0.3, d.CompensationEv.Value!.Value, 1e-9));
        Assert.All(result.DialIn, d => Assert.Equal(1.0 / 3, d.NearestThirdEv, 1e-9));
    }

    [Fact]
    public void Comparison_OfWhatBothHold_NamesWhatIsLeftOut()
    {
        SensorProfile after = Edited.Updated() with { IsoProfiles = [.. Before.IsoProfiles.Take(2)] };

        RetestResult result = Compare(after);

        Assert.Equal(RetestVerdict.Equivalent, result.Verdict);
        Assert.Contains(result.Assumes, a => a.Contains("not ISO 1600", StringComparison.Ordinal));
    }

    public static TheoryData<string, SensorProfile> Refused => new()
    {
        { "model-differs", Before with { Body = Before.Body with { Model = "LM-3" } } },
        { "sensor-differs", Before with { Sensor = Before.Sensor with { WidthPixels = 4000 } } },
        { "sensor-differs", Before with { Sensor = Before.Sensor with { ColourFilterArray = "BGGR" } } },
        { "iso-not-shared", Before with { IsoProfiles = [Before.IsoProfiles[0] with { Iso = 50 }] } },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public void Comparison_OfWhatCannotBeCompared_IsRefusedByCode(string code, SensorProfile after)
    {
        var refused = Assert.Throws<ProfilesNotComparableException>(() => Compare(after));

        Assert.Equal([code], refused.Findings.Select(f => f.Code));
    }

    [Fact]
    public void Comparison_WithARepeatOfAnotherFirmware_IsRefused()
    {
        var refused = Assert.Throws<ProfilesNotComparableException>(() =>
            ProfileComparison.Of(Before, Edited.Updated(), [Edited.Updated("1.3")], RetestMargins.Default));

        Assert.Equal(["repeat-foreign"], refused.Findings.Select(f => f.Code));
    }

    private static RetestResult Compare(SensorProfile after) => ProfileComparison.Of(Before, after, [], RetestMargins.Default);

    /// <summary>The profile with a second reading an ISO, some EV off the first.</summary>
    private static SensorProfile TwoReadings(SensorProfile profile, double apartEv) => profile with
    {
        IsoProfiles = [.. profile.IsoProfiles.Select(p => p with
        {
            MeterReadings = 2,
            Levels = [.. p.Levels, .. p.Levels.Where(l => l.Role == RoleName.Metered).Select(l => l with
            {
                LightStep = "meter 2",
                Channels = [.. l.Channels.Select(c => c with { SpotMeanDn = SampleBlackDn + ((c.SpotMeanDn - SampleBlackDn) * Math.Pow(2, apartEv)) })],
            })],
        })],
    };

    private static double SampleBlackDn => Before.IsoProfiles[0].Channels[0].BlackLevelDn!.Value!.Value;
}
