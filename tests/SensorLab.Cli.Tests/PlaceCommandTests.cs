using System.Text.Json.Nodes;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class PlaceCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Place_ToneAndScene_TellsEveryPartInEightyColumns()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), "--iso", "400", "--tone", "2.7", "--scene", "-5..3");

        Assert.Equal((0, string.Empty), (run.Status, run.Error));
        string[] parts = ["Headroom", "SNR", "Bright texture", "Dark texture", "Scene", "Expose to clip", "Preview of", "neutral", "vivid", "flare", "sensor, meter, shutter and lamp together"];
        Assert.All(parts, part => Assert.Contains(part, run.Output, StringComparison.Ordinal));
        Assert.All(run.Output.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
    }

    [Theory]
    [InlineData("--tone", "-4", "--scene", "-5..3")]
    [InlineData("--tone=-4", "--scene=-5..3")]
    [InlineData("--scene", "-5.0..3", "--tone", "-4.0")]
    public async Task Place_NegativeEv_ParsesAsAValue(params string[] words)
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), ["--iso", "100", "--json", .. words]);

        JsonNode answer = JsonNode.Parse(run.Output)!;
        Assert.Equal(0, run.Status);
        Assert.Equal(-4, answer["toneEv"]!.GetValue<double>());
        Assert.NotNull(answer["sceneFits"]);
    }

    [Fact]
    public async Task Place_MeasuredLight_IsTaken()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), "--iso", "100", "--tone", "0", "--light", "tungsten", "--json");

        Assert.Equal("tungsten", JsonNode.Parse(run.Output)!["light"]!.GetValue<string>());
    }

    [Fact]
    public async Task Place_UnknownLight_IsAUsageErrorThatNamesTheKnownOnes()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), "--iso", "100", "--tone", "0", "--light", "candle");

        Assert.Equal(2, run.Status);
        Assert.Contains("\"tungsten\"", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Theory]
    [InlineData("--iso", "0", "--tone", "0")]
    [InlineData("--iso", "100", "--tone", "bright")]
    [InlineData("--iso", "100", "--tone", "NaN")]
    [InlineData("--iso", "100", "--tone", "0", "--scene", "3..-5")]
    [InlineData("--iso", "100", "--tone", "0", "--scene", "3")]
    [InlineData("--iso", "100", "--tone", "0", "--guard", "-1")]
    [InlineData("--iso", "100")]
    [InlineData("--tone", "1")]
    public async Task Place_WordsThatAreOff_AreAUsageError(params string[] words)
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), words);

        Assert.Equal(2, run.Status);
        Assert.Empty(run.Output);
    }

    [Fact]
    public async Task Place_IsoThatWasNotMeasured_IsRefusedAndNamesItsNeighbours()
    {
        CommandRun run = await RunAsync(SampleProfiles.ThreeIsos(), "--iso", "800", "--tone", "1", "--json");

        JsonNode finding = JsonNode.Parse(run.Output)!["findings"]![0]!;
        Assert.Equal(3, run.Status);
        Assert.Equal("iso-unmeasured", finding["code"]!.GetValue<string>());
        Assert.Contains("ISO 400 and ISO 1600", finding["message"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Contains("iso-unmeasured", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{\"iso\": 100}")]
    [InlineData("no profile")]
    public async Task Place_FileThatIsNoProfile_IsSaid(string text)
    {
        string path = Path.Combine(_folder, "other.json");
        await File.WriteAllTextAsync(path, text, TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "place", path, "--iso", "100", "--tone", "0");

        Assert.Equal(4, run.Status);
        Assert.StartsWith("sensorlab: ", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Place_BoundsAndMonochromeAndHostileText_AreToldWithoutFaultOrEscapes()
    {
        foreach (SensorProfile profile in new[] { SampleProfiles.Bounds(), SampleProfiles.Monochrome(), SampleProfiles.HostileStrings() })
        {
            string iso = profile.IsoProfiles[0].Iso.ToString(System.Globalization.CultureInfo.InvariantCulture);
            for (int tone = -9; tone <= 5; tone++)
            {
                CommandRun run = await RunAsync(profile, "--iso", iso, "--tone", tone.ToString(System.Globalization.CultureInfo.InvariantCulture), "--scene", "-3..1");

                Assert.Equal(0, run.Status);
                Assert.DoesNotContain('\u001b', run.Output);
                Assert.DoesNotContain('\u202e', run.Output);
            }
        }
    }

    [Fact]
    public async Task Place_LowerBoundForSaturation_IsSaidAsSuch() =>
        Assert.Contains("at least", (await RunAsync(SampleProfiles.Bounds(), "--iso", "100", "--tone", "1")).Output, StringComparison.Ordinal);

    private Task<CommandRun> RunAsync(SensorProfile profile, params string[] words)
    {
        string path = Path.Combine(_folder, "profile.json");
        SensorProfileWriter.WriteFile(profile, path, TestContext.Current.CancellationToken);
        return CommandRun.OfAsync(CommandRun.Sample, ["place", path, .. words]);
    }
}
