using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Tests;

public sealed class FrameSetBuilderTests
{
    [Fact]
    public void Build_CleanSet_HasAllLevelsAndNoFinding()
    {
        FrameSet set = FrameSetBuilder.Build(MadeUpSet.Clean(100, 400), GreyMethod.Metered);

        Assert.Empty(set.Findings);
        Assert.Empty(set.LeftOut);
        Assert.Equal(16, set.Levels.Count);
        Assert.All(set.Levels, l => Assert.Equal(2, l.Frames.Count));
        Assert.False(set.IsRefused);
    }

    [Fact]
    public void Build_CleanSet_OrdersLevelsByIsoRoleAndExposure()
    {
        List<SetFrame> frames = MadeUpSet.Clean(400, 100);

        LevelKey[] keys = [.. FrameSetBuilder.Build(frames, GreyMethod.Metered).Levels.Select(l => l.Key)];

        Assert.Equal(keys.OrderBy(k => k.Iso).ThenBy(k => k.Role).ThenBy(k => k.ExposureSeconds), keys);
        Assert.Equal([FrameRole.Dark, FrameRole.Metered, FrameRole.Bracket], keys.Take(3).Select(k => k.Role));
        Assert.All(keys, k => Assert.Equal(5.6, k.ApertureFNumber));
    }

    [Fact]
    public void Build_FramesRenamedAndReordered_GivesTheSameLevels()
    {
        List<SetFrame> frames = MadeUpSet.Clean(100, 400);
        SetFrame[] renamed = [.. frames.AsEnumerable().Reverse().Select((f, i) => f with { File = $"Z{i}" })];

        IReadOnlyList<Level> before = FrameSetBuilder.Build(frames, GreyMethod.Metered).Levels;
        IReadOnlyList<Level> after = FrameSetBuilder.Build(renamed, GreyMethod.Metered).Levels;

        Assert.Equal(before.Select(l => l.Key), after.Select(l => l.Key));
        Assert.Equal(
            before.SelectMany(l => l.Frames).Select(f => f.ContentKey),
            after.SelectMany(l => l.Frames).Select(f => f.ContentKey));
    }

    [Fact]
    public void Build_FramesWithoutTime_AreOrderedByTheirPixels()
    {
        List<SetFrame> frames = MadeUpSet.Clean().Change(_ => true, m => m with { CaptureTime = null });

        Level level = FrameSetBuilder.Build([.. frames.AsEnumerable().Reverse()], GreyMethod.Metered).Levels[0];

        Assert.Equal(level.Frames.OrderBy(f => f.ContentKey), level.Frames);
    }

    [Theory]
    [InlineData(0.01, 0.0101, 1)]
    [InlineData(0.0101, 0.01, 1)]
    [InlineData(0.01, 0.01011, 2)]
    [InlineData(0.01, 0.010100005, 2)]
    public void Build_ExposuresAboutOnePercentApart_AreOneLevelUpToOnePercent(double first, double second, int levels)
    {
        SetFrame[] frames =
        [
            .. MadeUpSet.Clean(),
            MadeUpSet.Frame(FrameRole.Bracket, 100, first, "bracket/A", 1),
            MadeUpSet.Frame(FrameRole.Bracket, 100, second, "bracket/B", 2),
        ];

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.Equal(8 + levels, set.Levels.Count);
    }

    [Fact]
    public void Build_ChainOfExposuresOnePercentApart_DoesNotGrowOneLevelWithoutEnd()
    {
        SetFrame[] frames = [.. MadeUpSet.Clean(), .. Enumerable.Range(0, 6).Select(i =>
            MadeUpSet.Frame(FrameRole.Bracket, 100, 0.01 * Math.Pow(1.006, i), $"bracket/C{i}", (ulong)i))];

        Level[] levels = [.. FrameSetBuilder.Build(frames, GreyMethod.Metered).Levels.Where(l => l.Key.ExposureSeconds is > 0.009 and < 0.012)];

        Assert.Equal([2, 2, 2], levels.Select(l => l.Frames.Count));
        Assert.Equal(0.01, levels[0].Key.ExposureSeconds);
    }

    [Fact]
    public void Build_LightSteps_AreLevelsOfTheirOwn()
    {
        SetFrame[] frames = [.. MadeUpSet.Clean(), .. MadeUpSet.Clean()
            .Where(f => f.Role == FrameRole.Bracket)
            .Select(f => f with { LightStep = "near", ContentKey = f.ContentKey + 500 })];

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.Equal(14, set.Levels.Count);
        Assert.Equal(6, set.Levels.Count(l => l.Key.LightStep == "near"));
    }

    [Fact]
    public void Build_DarksOfSeveralApertures_AreOneLevelWithoutAperture()
    {
        List<SetFrame> frames = MadeUpSet.Clean();
        int i = 0;
        frames = frames.Change(f => f.Role == FrameRole.Dark && i++ == 0, m => m with { ApertureFNumber = 2.8 });

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.Empty(set.Findings);
        Level dark = Assert.Single(set.Levels, l => l.Key.Role == FrameRole.Dark);
        Assert.Equal(2, dark.Frames.Count);
        Assert.Null(dark.Key.ApertureFNumber);
    }

    [Fact]
    public void Build_LensWithoutContacts_HasLevelsWithoutAperture()
    {
        FrameSet set = FrameSetBuilder.Build(MadeUpSet.Clean().Change(_ => true, m => m with { ApertureFNumber = 0 }), GreyMethod.Metered);

        Assert.Empty(set.Findings);
        Assert.All(set.Levels, l => Assert.Null(l.Key.ApertureFNumber));
    }

    [Fact]
    public void Build_OtherLights_AreLevelsByName()
    {
        SetFrame[] frames =
        [
            .. MadeUpSet.Clean(),
            MadeUpSet.Frame(FrameRole.Light, 100, 0.02, "light/a", 1) with { Light = "tungsten" },
            MadeUpSet.Frame(FrameRole.Light, 100, 0.02, "light/b", 2) with { Light = "daylight" },
        ];

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.Empty(set.Findings);
        Assert.Equal(["daylight", "tungsten"], set.Levels.Where(l => l.Key.Role == FrameRole.Light).Select(l => l.Key.Light!));
    }

    [Fact]
    public void Build_OneIsoRefused_KeepsTheOther()
    {
        SetFrame[] frames = [.. MadeUpSet.Clean(100, 400).Where(f => f.Role != FrameRole.Dark || f.Raw.Metadata.Iso == 100)];

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.False(set.IsRefused);
        Assert.All(set.Levels, l => Assert.Equal(100, l.Key.Iso));
        Assert.Equal(14, set.LeftOut.Count);
        Finding finding = Assert.Single(set.Findings);
        Assert.Equal((FindingCode.DarkMissing, 400), (finding.Code, finding.Iso));
    }

    [Fact]
    public void Build_EveryIsoRefused_RefusesTheSet()
    {
        SetFrame[] frames = [.. MadeUpSet.Clean(100, 400).Where(f => f.Role != FrameRole.Dark)];

        FrameSet set = FrameSetBuilder.Build(frames, GreyMethod.Metered);

        Assert.True(set.IsRefused);
        Assert.Equal(frames.Length, set.LeftOut.Count);
        Assert.Equal([100, 400], set.Findings.Select(f => f.Iso!.Value));
    }

    [Fact]
    public void Build_EarlierFindings_AreKeptAndSortedWorstFirst()
    {
        var note = new Finding { Code = FindingCode.FrameUnreadable, Severity = FindingSeverity.Note, Message = "m", Remedy = "r" };

        FrameSet set = FrameSetBuilder.Build([], GreyMethod.Metered, [note]);

        Assert.Equal([FindingCode.FramesNone, FindingCode.FrameUnreadable], set.Findings.Select(f => f.Code));
        Assert.Contains("None of the 1 raw files", set.Findings[0].Message, StringComparison.Ordinal);
    }
}
