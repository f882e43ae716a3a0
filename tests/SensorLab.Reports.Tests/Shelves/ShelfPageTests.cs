using System.Text;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Shelves;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Shelves;

/// <summary>The pages of the shelf: what is drawn is what the profiles hold, and a browser complains of nothing.</summary>
public sealed class ShelfPageTests(PageBrowser browser) : IClassFixture<PageBrowser>, IDisposable
{
    private const string Hostile = "<script>alert(1)</script>\u202e";

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void OverTime_ShadowEnd_IsDrawnDownWithItsIntervalAndChangesMarked()
    {
        PlotModel chart = CourseChart.OverTime(Course(isDown: true), "a body", "A sentence.");

        PlotSeries first = chart.Panels[0].Series[0];
        Assert.Equal([-5.6, -5.5, -5.1], first.Points.Select(p => p.Y));
        Assert.All(first.Points, p => Assert.True(p.LowerY95 < p.Y && p.Y < p.UpperY95));
        Assert.Equal([-5.1], chart.Panels[0].Series[^1].Points.Select(p => p.Y));
        Assert.Equal("changed from the one before", chart.Panels[0].Series[^1].Label);
        Assert.Equal(["1.2"], chart.Panels[0].Rules.Select(r => r.Label));
        Assert.Equal("EV", chart.Panels[0].Vertical.Unit);
        Assert.All(first.Points, p => Assert.InRange(p.X, chart.Horizontal.Minimum, chart.Horizontal.Maximum));
    }

    [Fact]
    public void OverTime_BoundsAndProfilesWithoutATime_AreNoPoints()
    {
        CourseFigure figure = Course(isDown: false) with
        {
            Lines = [new CourseLine("ISO 100", [new CourseMark(null, "none", "1", SampleProfiles.Measured(1, 0.1), string.Empty, false), new CourseMark(At(0), "bound", "1", Figure.LowerBound(3), string.Empty, true)])],
        };

        Assert.True(CourseChart.OverTime(figure, "a body", "A sentence.").IsEmpty);
    }

    [Fact]
    public void OverBodies_WithWhatIsExpected_HasItsRules()
    {
        CourseFigure figure = Course(isDown: false) with { Lines = [Course(false).Lines[0] with { Expected = SampleProfiles.Measured(5.4, 0.2) }] };

        PlotModel chart = CourseChart.OverBodies(figure, "a model", "A sentence.");

        Assert.Equal([5.4, 5.4 - (1.959964 * 0.2), 5.4 + (1.959964 * 0.2)], chart.Panels[0].Rules.Select(r => r.Value));
        Assert.Equal([1, 2, 3], chart.Panels[0].Series[0].Points.Select(p => p.X));
    }

    [Fact]
    public void OverBodies_FewBodiesWithShortNames_AreNamedOnTheAxis()
    {
        CourseLine line = Course(false).Lines[0];
        CourseFigure named = Course(false) with { Lines = [line with { Marks = [.. line.Marks.Select((m, i) => m with { ShortName = $"2041{i}" })] }] };

        Assert.Equal(["20410", "20411", "20412"], CourseChart.OverBodies(named, "a model", "A sentence.").Horizontal.Ticks.Select(t => t.Label));
        Assert.Equal(["1", "2", "3"], CourseChart.OverBodies(Course(false), "a model", "A sentence.").Horizontal.Ticks.Select(t => t.Label));
    }

    [Fact]
    public void History_ComparisonsThatDecideNothing_AreNoUnchangedOnes()
    {
        CourseLine line = Course(false).Lines[0];
        CourseFigure open = Course(false) with { Lines = [line with { Marks = [line.Marks[0], line.Marks[1] with { IsOpen = true, Words = "undecided: +0.10 EV" }] }] };
        CourseFigure sound = Course(false) with { Lines = [line with { Marks = [line.Marks[0], line.Marks[1]] }] };

        Assert.Contains("No change was found. Of 1 comparison nothing is decided", Text(open), StringComparison.Ordinal);
        Assert.Contains("No two neighbours differ by more than matters.", Text(sound), StringComparison.Ordinal);
        Assert.Contains("Changed on last: ISO 100.", Text(Course(false)), StringComparison.Ordinal);

        static string Text(CourseFigure figure) => Encoding.UTF8.GetString(ShelfPageWriter.History("a body", [figure]));
    }

    [Fact]
    public void Model_FewBodies_AreNotSaidToBeAlikeAndValuesHaveTheirSign()
    {
        CourseLine line = Course(false).Lines[0];
        CourseFigure figure = Course(false) with { Lines = [line with { Marks = [line.Marks[0], line.Marks[1]], Expected = SampleProfiles.Measured(5.4, 0.2) }] };

        Assert.Contains("No body stands out.", Text(figure), StringComparison.Ordinal);
        Assert.Contains("too few to tell whether one stands out.", Text(figure with { IsOfFew = true }), StringComparison.Ordinal);
        Assert.DoesNotContain("No body stands out.", Text(figure with { IsOfFew = true }), StringComparison.Ordinal);
        Assert.Contains(" expected at 5.40 ", Text(figure), StringComparison.Ordinal);
        Assert.Contains(" expected at +5.40 ", Text(figure with { IsUp = true }), StringComparison.Ordinal);

        static string Text(CourseFigure figure) => Encoding.UTF8.GetString(ShelfPageWriter.Model("a model", [figure]));
    }

    [Theory]
    [InlineData(360, false)]
    [InlineData(1280, true)]
    [InlineData(2560, false)]
    public async Task Pages_AnyScreen_FitAndComplainOfNothing(int width, bool isDark)
    {
        foreach (byte[] html in new[] { ShelfPageWriter.History(Hostile, [Course(true), Course(false)]), ShelfPageWriter.Model(Hostile, [Course(false)]) })
        {
            string path = _folder.File("page.html");
            await File.WriteAllBytesAsync(path, html, TestContext.Current.CancellationToken);
            await using OpenPage page = await browser.OpenAsync(path, width, isDark);

            Assert.Empty(page.Complaints);
            Assert.Empty(page.Requests);
            Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
            Assert.Empty(await page.StructureFaultsAsync());
            Assert.DoesNotContain("<script>alert", await page.Page.ContentAsync(), StringComparison.Ordinal);
        }
    }

    private static CourseFigure Course(bool isDown) => new("shadow end at SNR 10", isDown, IsEv: true,
    [
        new CourseLine("ISO 100",
        [
            new CourseMark(At(0), $"18 Apr 2021 {Hostile}", "1.1", SampleProfiles.Measured(5.6, 0.02), string.Empty, false),
            new CourseMark(At(200), "later", "1.1", SampleProfiles.Measured(5.5, 0.02), "equivalent", false),
            new CourseMark(At(700), "last", "1.2", SampleProfiles.Measured(5.1, 0.02), "changed: +0.40 EV", true),
        ]),
        new CourseLine("ISO 400", [new CourseMark(At(200), "later", "1.1", SampleProfiles.Measured(3.7, 0.05), string.Empty, false)]),
    ]);

    private static DateTimeOffset At(int days) => new DateTimeOffset(2021, 4, 18, 9, 0, 0, TimeSpan.Zero).AddDays(days);
}
