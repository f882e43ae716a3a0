using SensorLab.Profiles;

namespace SensorLab.Retest.Tests;

public sealed class ChangeTests
{
    private static readonly SensorProfile Before = Edited.Sample;

    public static TheoryData<string, int?, SensorProfile> Changes => new()
    {
        { ChangeCode.BlackMoved, 400, Edited.Channels(400, c => c with { BlackLevelDn = Edited.Moved(c.BlackLevelDn!, 2) }) },
        { ChangeCode.WhiteDeclaredChanged, 400, Edited.Channels(400, c => c with { DeclaredWhiteDn = 15800 }) },
        { ChangeCode.RawFormatChanged, null, Edited.Updated() with { RecordingMode = Before.RecordingMode with { BitDepth = 12 } } },
        { ChangeCode.RawFormatChanged, null, Edited.Updated() with { RecordingMode = Before.RecordingMode with { Compression = "lossy" } } },
        { ChangeCode.RawFormatChanged, 100, WithLevels(c => c with { CodeStepDn = 4 }) },
        { ChangeCode.FilterChanged, 100, WithLevels(c => c with { NeighbourCorrelation = new NeighbourCorrelation(0.04, 0.04, 0.002) }) },
        { ChangeCode.PreviewChanged, 1600, Edited.Iso(1600, p => p with { Previews = [p.Previews[0] with { ClipEv = Edited.Moved(p.Previews[0].ClipEv!, 0.4) }] }) },
        { ChangeCode.PreviewChanged, 1600, Edited.Iso(1600, p => p with { Previews = [p.Previews[0] with { ToneCurve = [.. p.Previews[0].ToneCurve.Select(t => t with { Code = t.Code * 0.9 })] }] }) },
        {
            ChangeCode.GainSwitchMoved,
            400,
            Edited.Channels(400, c => c with { ReadNoiseElectron = Edited.Moved(c.ReadNoiseElectron!, factor: 0.8) }) with { Findings = [.. Before.Findings, Found(FindingCode.GainSwitch, 400)] }
        },
    };

    [Theory]
    [MemberData(nameof(Changes))]
    public void Change_OfOneKind_IsFoundAloneAndMakesTheWholeChanged(string code, int? iso, SensorProfile after)
    {
        // Levels of both sides need neighbours' correlations to compare.
        SensorProfile before = Levels(Before, c => c with { NeighbourCorrelation = new NeighbourCorrelation(0, 0, 0.002) }) with
        {
            IsoProfiles = [.. Levels(Before, c => c with { NeighbourCorrelation = new NeighbourCorrelation(0, 0, 0.002) }).IsoProfiles.Select(p => p with { Channels = [.. p.Channels.Select(c => c with { DeclaredWhiteDn = 16000 })] })],
        };

        RetestResult result = ProfileComparison.Of(before, after, [], RetestMargins.Default);

        Assert.Equal(RetestVerdict.Changed, result.Verdict);
        Change change = Assert.Single(result.Changes);
        Assert.Equal((code, iso), (change.Code, change.Iso));
    }

    [Fact]
    public void IsoShifted_WhereGreyMoved_IsFoundAtEveryIso()
    {
        RetestResult result = ProfileComparison.Of(Before, Edited.GreyMoved(0.33, "1.2"), [], RetestMargins.Default);

        Assert.Equal([(ChangeCode.IsoShifted, 100), (ChangeCode.IsoShifted, 400), (ChangeCode.IsoShifted, 1600)], result.Changes.Select(c => (c.Code, c.Iso)).OfType<(string, int?)>().Select(c => (c.Item1, c.Item2!.Value)));
        Assert.Contains("0.33 EV higher", result.Changes[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void IsoShifted_WhereSaturationMovedAndGreyDidNot_IsNotFound()
    {
        SensorProfile after = Edited.Iso(400, p => p with
        {
            Latitude = p.Latitude with { AboveEv = Edited.Moved(p.Latitude.AboveEv!, -0.2) },
            Channels = [.. p.Channels.Select(c => c with { SaturationDn = Edited.Moved(c.SaturationDn!, factor: Math.Pow(2, -0.2)), Latitude = new ChannelLatitude { AboveEv = Edited.Moved(c.Latitude.AboveEv!, -0.2) } })],
        });

        RetestResult result = ProfileComparison.Of(Before, after, [], RetestMargins.Default);

        Assert.Empty(result.Changes);
        Assert.Contains(result.Figures, f => f.Address is { Iso: 400, Name: "saturationDn" } && f.Verdict == RetestVerdict.Changed);
    }

    [Fact]
    public void GainSwitch_WhereReadNoiseDidNotChange_IsNotSaidToHaveMoved()
    {
        SensorProfile after = Edited.Updated() with { Findings = [.. Before.Findings, Found(FindingCode.GainSwitch, 400)] };

        Assert.Empty(ProfileComparison.Of(Before, after, [], RetestMargins.Default).Changes);
    }

    // Clean sets carry such a note by chance once in sixty: what neighbours share did not change.
    [Fact]
    public void FilterChanged_WhereOnlyTheNoteOfOneSideSaysSo_IsNotFound()
    {
        SensorProfile after = Edited.Updated() with { Findings = [.. Before.Findings, Found(FindingCode.RawFiltered, 400)] };

        RetestResult result = ProfileComparison.Of(Before, after, [], RetestMargins.Default);

        Assert.Empty(result.Changes);
        Assert.Equal(RetestVerdict.Equivalent, result.Verdict);
    }

    [Fact]
    public void RawFormat_WhereBrightCodesLieFartherApart_IsFoundWithoutANote()
    {
        SensorProfile after = Levels(Edited.Updated(), c => c.MeanDn > 2000 ? c with { CodeStepDn = 2 } : c);

        Change change = Assert.Single(ProfileComparison.Of(Before, after, [], RetestMargins.Default).Changes);

        Assert.Equal(ChangeCode.RawFormatChanged, change.Code);
        Assert.Contains("coarser", change.Message, StringComparison.Ordinal);
    }

    private static SensorProfile WithLevels(Func<LevelChannel, LevelChannel> change)
    {
        SensorProfile changed = Levels(Edited.Updated(), change);
        return changed with { IsoProfiles = [changed.IsoProfiles[0], .. Before.IsoProfiles.Skip(1)] };
    }

    private static SensorProfile Levels(SensorProfile profile, Func<LevelChannel, LevelChannel> change) => profile with
    {
        IsoProfiles = [.. profile.IsoProfiles.Select(p => p with { Levels = [.. p.Levels.Select(l => l with { Channels = [.. l.Channels.Select(change)] })] })],
    };

    private static Finding Found(string code, int iso) =>
        new() { Code = code, Severity = FindingSeverity.Note, Iso = iso, Message = "Found.", Remedy = "None." };
}
