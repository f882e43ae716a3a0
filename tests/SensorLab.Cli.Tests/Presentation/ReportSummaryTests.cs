using SensorLab.Cli.Presentation;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests.Presentation;

public sealed class ReportSummaryTests
{
    public static TheoryData<string> States { get; } = ["three", "mono", "bounds", "hostile"];

    [Theory]
    [MemberData(nameof(States))]
    public void Lines_AnyProfile_FitEightyColumns(string state)
    {
        SensorProfile profile = Profile(state);

        // A word of a hostile name that is longer than a line stays whole: only lines of several words are held to the width.
        Assert.All(ReportSummary.Lines(profile), line => Assert.True(line.Length <= 80 || line.Trim().Split(' ').Length == 1, line));
        Assert.All(ReportSummary.Lines(profile), line => Assert.DoesNotContain(line, char.IsControl));
    }

    [Theory]
    [MemberData(nameof(States))]
    public void Lines_EveryFigure_IsTheProfiles(string state)
    {
        SensorProfile profile = Profile(state);
        IReadOnlyList<Figure> figures = PrintedFigures.Of(profile);

        Assert.All(
            PrintedFigures.In(string.Join('\n', ReportSummary.Lines(profile))),
            printed => Assert.True(figures.Any(f => PrintedFigures.Matches(printed, f)), printed.Text));
    }

    [Fact]
    public void Lines_EndsOfEveryIso_AreThere()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        IReadOnlyList<Printed> printed = PrintedFigures.In(string.Join('\n', ReportSummary.Lines(profile)));

        foreach (IsoLatitude latitude in profile.IsoProfiles.Select(i => i.Latitude))
        {
            Assert.Contains(printed, p => PrintedFigures.Matches(p, latitude.AboveEv!));
            Assert.Contains(printed, p => PrintedFigures.Matches(p, latitude.BelowEv.Single(e => e.Snr == 10).PerPixel!));
        }
    }

    [Fact]
    public void Lines_WarningAndRefusal_EndInBothAnswers() => Assert.Equal(
        """
        Can I use it? Yes, where it stands: ISO 400 and 1600 stand; ISO 100 is in doubt
          (light-drift); ISO 3200 was refused (metered-missing).
        Shoot again:
        - ISO 3200: the metered frames (metered-missing).
        - ISO 100: the bracket, under a steady light (light-drift).
        """.ReplaceLineEndings("\n"),
        string.Join('\n', ReportSummary.Lines(SampleProfiles.ThreeIsos()).SkipWhile(l => !l.StartsWith("Can I", StringComparison.Ordinal))));

    [Fact]
    public void Lines_NothingWrong_SayNothing() => Assert.Contains(
        "Shoot again: nothing.",
        ReportSummary.Lines(SampleProfiles.ThreeIsos() with { Findings = [] }));

    private static SensorProfile Profile(string state) => state switch
    {
        "three" => SampleProfiles.ThreeIsos(),
        "mono" => SampleProfiles.Monochrome(),
        "bounds" => SampleProfiles.Bounds(),
        _ => SampleProfiles.HostileStrings(),
    };
}
