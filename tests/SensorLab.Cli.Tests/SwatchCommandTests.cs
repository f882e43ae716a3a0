using System.Text;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class SwatchCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("swatch.html", "<!doctype html>")]
    [InlineData("swatch.PDF", "%PDF-")]
    public async Task Swatch_Profile_WritesWhatTheSuffixAsksFor(string name, string start)
    {
        CommandRun run = await RunAsync("--iso", "400", "--out", _folder.File(name));

        Assert.Equal((0, string.Empty), (run.Status, run.Error));
        byte[] bytes = await File.ReadAllBytesAsync(_folder.File(name), TestContext.Current.CancellationToken);
        Assert.StartsWith(start, Encoding.Latin1.GetString(bytes[..30]), StringComparison.Ordinal);
        Assert.Contains($"Swatch: {_folder.File(name)}\n", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Swatch_Delivery_IsHandedOn()
    {
        Delivery? asked = null;
        Workbench workbench = CommandRun.Sample with
        {
            SwatchPage = (_, _, delivery) =>
            {
                asked = delivery;
                return [];
            },
        };

        CommandRun run = await RunAsync(workbench, "--iso", "400", "--out", _folder.File("s.html"), "--delivery", "2400x1600");

        Assert.Equal((0, new Delivery(2400, 1600)), (run.Status, asked));
    }

    [Fact]
    public async Task Swatch_IsoThatWasNotMeasured_IsRefusedAndWritesNothing()
    {
        CommandRun run = await RunAsync("--iso", "800", "--out", _folder.File("s.html"));

        Assert.Equal(3, run.Status);
        Assert.Contains("ISO 400 and ISO", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_folder.File("s.html")));
    }

    [Fact]
    public async Task Swatch_NoiseThatWasNotMeasured_IsRefusedByCode()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfileWriter.WriteFile(profile with { IsoProfiles = [profile.IsoProfiles[0] with { SnrCurve = [] }] }, _folder.File("bare.json"), TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "swatch", _folder.File("bare.json"), "--iso", "100", "--out", _folder.File("s.html"));

        Assert.Equal(3, run.Status);
        Assert.Contains("refused: noise-unmeasured, ISO 100", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--iso", "400")]
    [InlineData("--out", "s.html")]
    [InlineData("--iso", "400", "--out", "s.png")]
    [InlineData("--iso", "many", "--out", "s.html")]
    [InlineData("--iso", "400", "--out", "s.html", "--delivery", "wide")]
    public async Task Swatch_WordsThatAreOff_AreAUsageError(params string[] words)
    {
        CommandRun run = await RunAsync(words);

        Assert.Equal(2, run.Status);
        Assert.Empty(run.Output);
    }

    private Task<CommandRun> RunAsync(params string[] words) => RunAsync(CommandRun.Sample, words);

    private Task<CommandRun> RunAsync(Workbench workbench, params string[] words)
    {
        string path = _folder.File("p.json");
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), path, TestContext.Current.CancellationToken);
        return CommandRun.OfAsync(workbench, ["swatch", path, .. words]);
    }
}
