using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Shelf.History;
using SensorLab.TestData;

namespace SensorLab.Shelf.Tests;

public sealed class BodyHistoryTests
{
    private readonly SimulatedFleet _fleet = new();

    [Fact]
    public void History_BodyThatDrifted_IsChangedThereAndEquivalentElsewhere()
    {
        BodyHistory history = HistoryOf(new FigureChoice(100, "readNoiseElectron"), [.. Enumerable.Range(0, 6).Select(set => _fleet.Profile(1, set, driftsFrom: 3))]);

        FigureCourse course = history.Courses.Single(c => c.Address.Channel == "G1");
        Assert.Equal([null, RetestVerdict.Equivalent, RetestVerdict.Equivalent, RetestVerdict.Changed, RetestVerdict.Equivalent, RetestVerdict.Equivalent], course.Points.Select(p => p.Step?.Verdict));
        Assert.Equal(["R", "G1", "G2", "B"], history.Courses.Select(c => c.Address.Channel));
    }

    [Fact]
    public void History_TwoRecordingModes_AreTwoCourses()
    {
        SensorProfile other = _fleet.Profile(1, 1);

        BodyHistory history = HistoryOf(new FigureChoice(200, "aboveEv"), _fleet.Profile(1, 0), other with { RecordingMode = new RecordedMode { BitDepth = 12 } }, _fleet.Profile(1, 2));

        Assert.Equal([2, 1], history.Courses.Where(c => c.Address.Channel is null).Select(c => c.Points.Count));
        Assert.Equal(RetestVerdict.Equivalent, history.Courses[0].Points[1].Step!.Verdict);
    }

    [Fact]
    public void History_ProfileWithoutTheIso_IsPassedOver()
    {
        SensorProfile without = _fleet.Profile(1, 1);

        BodyHistory history = HistoryOf(new FigureChoice(200, "aboveEv"), _fleet.Profile(1, 0), without with { IsoProfiles = [without.IsoProfiles[0]] }, _fleet.Profile(1, 2));

        Assert.Equal(2, history.Courses[0].Points.Count);
        Assert.NotNull(history.Courses[0].Points[1].Step);
    }

    [Fact]
    public void History_ProfilesThatCannotBeCompared_SayWhy()
    {
        SensorProfile other = _fleet.Profile(1, 1);

        BodyHistory history = HistoryOf(new FigureChoice(100, "aboveEv"), _fleet.Profile(1, 0), other with { Sensor = new SensorGeometry(100, 100, "RGGB") });

        Assert.Null(history.Courses[0].Points[1].Step);
        Assert.Contains("100x100", history.Courses[0].Points[1].NotCompared, StringComparison.Ordinal);
    }

    /// <summary>Figures alone are read, and compared: not a sign may differ from what whole profiles and the whole re-test give.</summary>
    [Fact]
    public async Task History_ByFiguresAlone_IsThatOfWholeProfiles()
    {
        using var folder = new TemporaryFolder();
        var shelf = new ProfileShelf(folder.File("shelf"));
        SensorProfile sample = SampleProfiles.ThreeIsos();
        SensorProfile[] profiles =
        [
            .. Enumerable.Range(0, 4).Select(set => _fleet.Profile(1, set, driftsFrom: 3)),
            sample with { Body = _fleet.Profile(1, 0).Body, CreatedUtc = new DateTimeOffset(2030, 1, 1, 0, 0, 0, TimeSpan.Zero) },
            Noisy(sample) with { Body = _fleet.Profile(1, 0).Body, CreatedUtc = new DateTimeOffset(2031, 1, 1, 0, 0, 0, TimeSpan.Zero) },
            SampleProfiles.Bounds() with { Body = _fleet.Profile(1, 0).Body, CreatedUtc = new DateTimeOffset(2032, 1, 1, 0, 0, 0, TimeSpan.Zero) },
        ];
        await shelf.AddAsync([.. profiles.Select(p => new ShelfCandidate("a profile", _ => ShelfDocument.Of(p)))], new Progress<int>(), Token);
        ShelfContents contents = shelf.Contents(Token);
        ShelfBody body = contents.BodyOf(null);
        foreach (string? name in new[] { null, "belowEv", "previews", "middleGreyDn", "saturationElectron" })
        {
            var choice = new FigureChoice(null, name);

            BodyHistory whole = BodyHistory.Of(body, contents.Of(body), choice, p => shelf.Read(p.Key), (a, b) => ProfileComparison.Of(a.Figures, b.Figures, [], RetestMargins.Default).Figures, Token);
            BodyHistory figures = BodyHistory.Of(body, contents.Of(body), choice, p => shelf.ReadFigures(p.Key), (a, b) => ProfileComparison.FiguresOf(a.Figures, b.Figures, RetestMargins.Default), Token);

            Assert.Equal(whole.Courses.SelectMany(WordsOf), figures.Courses.SelectMany(WordsOf));
            Assert.Contains(figures.Courses.SelectMany(c => c.Points), p => p.Step is not null);
        }

        static IEnumerable<string> WordsOf(FigureCourse course) => course.Points.Select(p => string.Join('|', new object?[]
        {
            course.Address, course.Mode, p.Profile.Key, p.Figure with { Budget = null }, p.Figure.Budget is { } budget ? $"{budget with { Parts = [] }} {string.Join(' ', budget.Parts)}" : null,
            p.Step?.Verdict, p.Step?.Difference, p.Step?.Margin, p.Step?.Unit, p.NotCompared,
        }));

        // Less is known, so that figures stay open.
        static SensorProfile Noisy(SensorProfile profile) => profile with
        {
            IsoProfiles = [.. profile.IsoProfiles.Select(i => i with { Channels = [.. i.Channels.Select(c => c with { ReadNoiseElectron = SampleProfiles.Measured(c.ReadNoiseElectron!.Value!.Value * 1.04, 0.2, 10) })] })],
        };
    }

    [Fact]
    public async Task ReadFigures_FileChangedSinceItWasKept_IsRefused()
    {
        using var folder = new TemporaryFolder();
        var shelf = new ProfileShelf(folder.File("shelf"));
        await shelf.AddAsync([new ShelfCandidate("a profile", _ => ShelfDocument.Of(_fleet.Profile(1, 0)))], new Progress<int>(), Token);
        string key = shelf.Contents(Token).Profiles[0].Key;
        await File.WriteAllBytesAsync(shelf.PathOf(key), ShelfDocument.Of(_fleet.Profile(1, 1)).Bytes, Token);

        Assert.Contains("changed since it was kept", Assert.Throws<ProfileFormatException>(() => shelf.ReadFigures(key)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("belowEv.snr10", "belowEv.snr10.perPixel", true)]
    [InlineData("belowEv", "belowEv.snr10.perPixel", true)]
    [InlineData("clipEv", "previews.neutral.clipEv", true)]
    [InlineData("belowEv.snr1", "belowEv.snr10.perPixel", false)]
    [InlineData("Ev", "aboveEv", false)]
    public void Choice_NameThatIsCut_FitsAtItsPoints(string name, string figure, bool isFitting) =>
        Assert.Equal(isFitting, new FigureChoice(null, name).Includes(new FigureAddress(100, null, figure)));

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private static BodyHistory HistoryOf(FigureChoice choice, params SensorProfile[] profiles)
    {
        ShelfDocument[] documents = [.. profiles.Select(ShelfDocument.Of)];
        ShelvedProfile[] shelved =
        [
            .. documents.Select(d => new ShelvedProfile(d.Key, ShelfBody.Of(d.Profile.Body, d.Key), d.Profile.Body.Firmware, d.Profile.CreatedUtc, $"{d.Profile.RecordingMode.BitDepth} bits", [], 0, "test")),
        ];
        return BodyHistory.Of(
            shelved[0].Body,
            shelved,
            choice,
            p => documents.Single(d => d.Key == p.Key).Profile,
            (before, after) => ProfileComparison.FiguresOf(before.Figures, after.Figures, RetestMargins.Default),
            TestContext.Current.CancellationToken);
    }
}
