using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Shelf.History;

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

    [Theory]
    [InlineData("belowEv.snr10", "belowEv.snr10.perPixel", true)]
    [InlineData("belowEv", "belowEv.snr10.perPixel", true)]
    [InlineData("clipEv", "previews.neutral.clipEv", true)]
    [InlineData("belowEv.snr1", "belowEv.snr10.perPixel", false)]
    [InlineData("Ev", "aboveEv", false)]
    public void Choice_NameThatIsCut_FitsAtItsPoints(string name, string figure, bool isFitting) =>
        Assert.Equal(isFitting, new FigureChoice(null, name).Includes(new FigureAddress(100, null, figure)));

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
