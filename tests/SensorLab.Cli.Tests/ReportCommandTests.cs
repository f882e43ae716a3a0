using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class ReportCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Report_Profile_WritesThePageAndPrintsTheSummary()
    {
        SensorProfileWriter.WriteFile(SampleProfiles.Monochrome(), _folder.File("p.json"), TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "report", _folder.File("p.json"), "--out", _folder.File("report"));

        Assert.Equal(0, run.Status);
        Assert.True(File.Exists(Path.Combine(_folder.File("report"), "report.html")));
        Assert.True(File.Exists(Path.Combine(_folder.File("report"), "report.pdf")));
        Assert.Contains("Can I use it? Only with care", run.Output, StringComparison.Ordinal);
        Assert.EndsWith($"Report: {Path.Combine(_folder.File("report"), "report.html")}\n", run.Output, StringComparison.Ordinal);
        Assert.Contains("warning: light-drift", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Report_NoProfile_EndsInFourAndWritesNothing()
    {
        await File.WriteAllTextAsync(_folder.File("p.json"), "{\"format\": \"something else\"}", TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "report", _folder.File("p.json"), "--out", _folder.File("report"));

        Assert.Equal(4, run.Status);
        Assert.Contains("no sensor profile", run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_folder.File("report")));
    }

    [Fact]
    public async Task Report_MissingProfile_EndsInFour() =>
        Assert.Equal(4, (await CommandRun.OfAsync(CommandRun.Sample, "report", _folder.File("none.json"), "--out", _folder.File("report"))).Status);

    [Fact]
    public async Task Report_FileInTheFoldersPlace_EndsInFour()
    {
        await File.WriteAllTextAsync(_folder.File("report"), "a file", TestContext.Current.CancellationToken);
        SensorProfileWriter.WriteFile(SampleProfiles.Monochrome(), _folder.File("p.json"), TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "report", _folder.File("p.json"), "--out", _folder.File("report"));

        Assert.Equal(4, run.Status);
        Assert.Equal("a file", await File.ReadAllTextAsync(_folder.File("report"), TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("report")]
    [InlineData("report", "p.json")]
    [InlineData("report", "--out", "folder")]
    [InlineData("report", "--light", "--out", "folder")]
    public async Task Report_WordsOff_EndInTwo(params string[] words) =>
        Assert.Equal(2, (await CommandRun.OfAsync(CommandRun.Sample, words)).Status);
}
