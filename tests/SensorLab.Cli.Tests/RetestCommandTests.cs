using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class RetestCommandTests : IDisposable
{
    private const int Width = 80;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Retest_OfEqualProfiles_IsEquivalentInEightyColumns()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), SampleProfiles.ThreeIsos());

        Assert.Equal((0, string.Empty), (run.Status, run.Error));
        Assert.Contains("Equivalent: every figure judged lies within its margin.", run.Output, StringComparison.Ordinal);
        Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= Width, line));
    }

    [Fact]
    public async Task Retest_OfAChangedGain_IsStatusFiveAndNamesIt()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), WithGain(1.05));

        Assert.Equal(5, run.Status);
        Assert.Contains("Changed: system gain (e⁻/DN) at ISO 400.", run.Output, StringComparison.Ordinal);
        Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= Width, line));
    }

    [Fact]
    public async Task Retest_OfAGainAtTheMargin_IsStatusSix()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), WithGain(1.02));

        Assert.Equal(6, run.Status);
        Assert.Contains("Undecided: system gain", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Retest_AsJson_HasTheContractsForm()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), WithGain(1.05), "--json");

        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement root = document.RootElement;
        Assert.Equal("changed", root.GetProperty("verdict").GetString());
        Assert.Equal(JsonValueKind.Array, root.GetProperty("assumes").ValueKind);
        Assert.Equal(0, root.GetProperty("changes").GetArrayLength());
        JsonElement gain = root.GetProperty("figures").EnumerateArray().First(f => f.GetProperty("iso").GetInt32() == 400 && f.GetProperty("figure").GetString() == "gainElectronPerDn");
        Assert.Equal("R", gain.GetProperty("channel").GetString());
        Assert.Equal((0.02, "relative", "changed"), (gain.GetProperty("margin").GetDouble(), gain.GetProperty("marginUnit").GetString()!, gain.GetProperty("verdict").GetString()!));
        Assert.True(gain.GetProperty("difference").TryGetProperty("lower95", out _));
        Assert.Equal(JsonValueKind.Null, gain.GetProperty("furtherPairs").ValueKind);
        JsonElement prnu = root.GetProperty("figures").EnumerateArray().First(f => f.GetProperty("figure").GetString() == "prnuPercent");
        Assert.Equal(("not judged", JsonValueKind.Null), (prnu.GetProperty("verdict").GetString()!, prnu.GetProperty("margin").ValueKind));
    }

    [Fact]
    public async Task Retest_OfAnotherModelAsJson_IsStatusThreeWithFindings()
    {
        SensorProfile other = SampleProfiles.ThreeIsos();

        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), other with { Body = other.Body with { Model = "LM-3" } }, "--json");

        Assert.Equal(3, run.Status);
        Assert.Contains("these profiles cannot be compared:", run.Error, StringComparison.Ordinal);
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Equal("model-differs", document.RootElement.GetProperty("findings")[0].GetProperty("code").GetString());
    }

    [Theory]
    [InlineData("gain=2%", "no figure is called \"gain\"")]
    [InlineData("aboveEv=2%", "a margin of aboveEv is written as 0.1ev")]
    [InlineData("aboveEv", "is not a figure and a size")]
    public async Task Retest_OfAMarginThatIsNone_IsStatusTwo(string margin, string sentence)
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), SampleProfiles.ThreeIsos(), "--margin", margin);

        Assert.Equal(2, run.Status);
        Assert.Contains(sentence, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Retest_OfNoProfile_IsStatusFour()
    {
        string text = _folder.File("text.json");
        await File.WriteAllTextAsync(text, "{}", TestContext.Current.CancellationToken);

        Assert.Equal(4, (await CommandRun.OfAsync(CommandRun.Sample, "retest", text, text)).Status);
        Assert.Equal(4, (await CommandRun.OfAsync(CommandRun.Sample, "retest", _folder.File("none.json"), text)).Status);
    }

    [Fact]
    public async Task Retest_WithReport_WritesTheResultAndItsCharts()
    {
        string report = _folder.File("report");

        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), WithGain(1.05), "--report", report);

        Assert.Equal(5, run.Status);
        Assert.True(File.Exists(Path.Combine(report, "retest.json")));
        Assert.Contains("<th scope=\"row\">400</th><td class=\"words\">R</td><td class=\"words\">system gain (e⁻/DN)</td><td class=\"words\">+5.00", await File.ReadAllTextAsync(Path.Combine(report, "retest.html"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(report, "retest-iso-400.svg")));
        Assert.True(File.Exists(Path.Combine(report, "retest-iso-1600-dark.png")));
    }

    private async Task<CommandRun> RunAsync(SensorProfile before, SensorProfile after, params string[] more)
    {
        string first = _folder.File("before.json");
        string second = _folder.File("after.json");
        SensorProfileWriter.WriteFile(before, first, TestContext.Current.CancellationToken);
        SensorProfileWriter.WriteFile(after, second, TestContext.Current.CancellationToken);
        return await CommandRun.OfAsync(CommandRun.Sample with { RetestFiles = Workbench.Library.RetestFiles }, ["retest", first, second, .. more]);
    }

    private static SensorProfile WithGain(double factor)
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        return profile with
        {
            Body = profile.Body with { Firmware = "1.2" },
            IsoProfiles = [.. profile.IsoProfiles.Select(p => p.Iso != 400 ? p : p with
            {
                Channels = [.. p.Channels.Select(c => c with { GainElectronPerDn = SampleProfiles.Measured(factor * c.GainElectronPerDn!.Value!.Value, c.GainElectronPerDn.StandardUncertainty!.Value) })],
            })],
        };
    }
}
