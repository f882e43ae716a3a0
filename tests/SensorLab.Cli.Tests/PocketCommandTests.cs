using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class PocketCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("sheet.html", "<!doctype html>")]
    [InlineData("sheet.PDF", "%PDF-")]
    public async Task Pocket_Profile_WritesWhatTheSuffixAsksFor(string name, string start)
    {
        CommandRun run = await RunAsync(name, SampleProfiles.ThreeIsos());

        Assert.Equal((0, string.Empty), (run.Status, run.Error));
        Assert.StartsWith(start, await File.ReadAllTextAsync(_folder.File(name), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("the body in hand, ISO 100", run.Output, StringComparison.Ordinal);
        Assert.EndsWith($"Pocket sheet: {_folder.File(name)}\n", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pocket_Team_SaysWhoseProfilesTheyAreInEightyColumns()
    {
        SensorProfile mine = SampleProfiles.ThreeIsos();

        CommandRun run = await RunAsync(
            "s.html", mine, mine with { Body = mine.Body with { SerialNumber = "20433" } }, mine with { Body = mine.Body with { SerialNumber = null } });

        string text = string.Join(' ', run.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("20433, firmware 1.1, not the body in hand", text, StringComparison.Ordinal);
        Assert.Contains("no serial number tells whether it is the body in hand", text, StringComparison.Ordinal);
        Assert.All(run.Output.Split('\n').Where(line => !line.StartsWith("Pocket sheet:", StringComparison.Ordinal)), line => Assert.InRange(line.Length, 0, 80));
    }

    [Fact]
    public async Task Pocket_IncompleteOrHostileProfile_SaysWhatIsMissing()
    {
        foreach (SensorProfile profile in new[] { SampleProfiles.Bounds(), SampleProfiles.Monochrome(), SampleProfiles.HostileStrings() })
        {
            CommandRun run = await RunAsync("s.html", profile);

            Assert.Equal(0, run.Status);
            Assert.DoesNotContain('\u001b', run.Output);
            Assert.DoesNotContain('\u202e', run.Output);
        }

        Assert.Contains("bound only", (await RunAsync("s.html", SampleProfiles.Bounds())).Output, StringComparison.Ordinal);
        Assert.Contains("No preview", (await RunAsync("s.html", SampleProfiles.Monochrome())).Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("pocket")]
    [InlineData("pocket", "p.json")]
    [InlineData("pocket", "--out", "s.html")]
    [InlineData("pocket", "p.json", "--out", "s.txt")]
    [InlineData("pocket", "p.json", "--out", "s")]
    [InlineData("pocket", "p.json", "--paper", "--out", "s.pdf")]
    [InlineData("pocket", "p.json", "./p.json", "--out", "s.html")]
    public async Task Pocket_WordsOff_EndInTwo(params string[] words)
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, words);

        Assert.Equal(2, run.Status);
        Assert.Empty(run.Output);
    }

    [Fact]
    public async Task Pocket_CopyOfTheSameProfile_EndsInTwo()
    {
        CommandRun run = await RunAsync("s.html", SampleProfiles.ThreeIsos(), SampleProfiles.ThreeIsos());

        Assert.Equal(2, run.Status);
        Assert.Contains("same profile", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_folder.File("s.html")));
    }

    [Theory]
    [InlineData("{\"format\": \"something else\"}", "no sensor profile")]
    [InlineData("{\"format\": \"sensorlab-profile\", \"formatVersion\": \"2.0\"}", "formatVersion")]
    [InlineData("no JSON", "no JSON")]
    public async Task Pocket_SecondFileIsNoProfile_EndsInFourAndNamesIt(string text, string reason)
    {
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("p.json"), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_folder.File("other.json"), text, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_folder.File("s.html"), "the old sheet", TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "pocket", _folder.File("p.json"), _folder.File("other.json"), "--out", _folder.File("s.html"));

        Assert.Equal(4, run.Status);
        Assert.Contains("other.json", run.Error, StringComparison.Ordinal);
        Assert.Contains(reason, run.Error, StringComparison.Ordinal);
        Assert.Equal("the old sheet", await File.ReadAllTextAsync(_folder.File("s.html"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Pocket_MissingProfileOrFolder_EndsInFour()
    {
        Assert.Equal(4, (await CommandRun.OfAsync(CommandRun.Sample, "pocket", _folder.File("none.json"), "--out", _folder.File("s.html"))).Status);
        Assert.Equal(4, (await RunAsync(Path.Combine("none", "s.html"), SampleProfiles.ThreeIsos())).Status);
    }

    private Task<CommandRun> RunAsync(string name, params SensorProfile[] profiles)
    {
        string[] paths = [.. profiles.Select((_, i) => _folder.File($"p{i}.json"))];
        foreach ((SensorProfile profile, string path) in profiles.Zip(paths))
        {
            SensorProfileWriter.WriteFile(profile, path, TestContext.Current.CancellationToken);
        }

        return CommandRun.OfAsync(CommandRun.Sample, ["pocket", .. paths, "--out", _folder.File(name)]);
    }
}
