using System.Text.Json;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class PlanCommandTests(RehearsedSet rehearsed) : IClassFixture<RehearsedSet>, IDisposable
{
    private const int Columns = 80;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Plan_Evening_WritesFourFilesAndTellsItInEightyColumns()
    {
        string folder = _folder.File("p");

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "evening", "--metered", "1/60@100", "--mains", "50", "--out", folder);

        Assert.Equal((0, string.Empty), (run.Status, run.Error));
        Assert.Equal(["plan.csv", "plan.html", "plan.json", "plan.pdf"], Directory.GetFiles(folder).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal));
        Assert.All(run.Output.Split('\n').Where(l => !l.StartsWith("Shot list:", StringComparison.Ordinal)), line => Assert.True(line.Length <= Columns, line));
        Assert.Contains("272 frames", run.Output, StringComparison.Ordinal);
        Assert.Equal(50, ShotPlanDocument.ReadFile(Path.Combine(folder, "plan.json")).MainsHz);
    }

    [Fact]
    public async Task Plan_Twice_GivesTheSameBytes()
    {
        foreach (string name in new[] { "a", "b" })
        {
            await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "lights", "--iso", "400,100", "--out", _folder.File(name));
        }

        foreach (string file in Directory.GetFiles(_folder.File("a")))
        {
            byte[] first = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
            Assert.Equal(first, await File.ReadAllBytesAsync(Path.Combine(_folder.File("b"), Path.GetFileName(file)), TestContext.Current.CancellationToken));
        }
    }

    [Fact]
    public async Task Plan_UnknownProtocol_ListsThoseThereAre()
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "midnight", "--out", _folder.File("p"));

        Assert.Equal(2, run.Status);
        Assert.All(ProtocolLibrary.Names, name => Assert.Contains(name, run.Error, StringComparison.Ordinal));
        Assert.False(Directory.Exists(_folder.File("p")));
    }

    [Theory]
    [InlineData("--iso", "100,fast")]
    [InlineData("--iso", "0")]
    [InlineData("--iso", "100,100")]
    [InlineData("--shutter", "30..1/8000")]
    [InlineData("--shutter", "1/8000")]
    [InlineData("--shutter", "1/8000..3000")]
    [InlineData("--metered", "1/60")]
    [InlineData("--metered", "1/60@auto")]
    [InlineData("--metered", "0@100")]
    [InlineData("--mains", "55")]
    public async Task Plan_WordOff_IsAUsageError(string option, string word)
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "evening", option, word, "--out", _folder.File("p"));

        Assert.Equal(2, run.Status);
        Assert.False(Directory.Exists(_folder.File("p")));
    }

    [Fact]
    public async Task Plan_FromWhatIsNoProfile_IsAFileError()
    {
        await File.WriteAllTextAsync(_folder.File("no.json"), "{}", TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "evening", "--from", _folder.File("no.json"), "--out", _folder.File("p"));

        Assert.Equal(4, run.Status);
    }

    [Fact]
    public async Task IntakeAndCharacterise_WithPlan_TellWhatIsMissing()
    {
        string plan = await PlanAsync();

        CommandRun intake = await CommandRun.OfAsync(new Workbench(), "intake", rehearsed.Frames, "--plan", plan);
        CommandRun characterise = await CommandRun.OfAsync(new Workbench(), "characterise", rehearsed.Frames, "--out", _folder.File("c.json"), "--plan", plan);

        foreach (CommandRun run in new[] { intake, characterise })
        {
            Assert.Equal(0, run.Status);
            Assert.Contains("are missing. To finish:", run.Output, StringComparison.Ordinal);
            Assert.All(run.Output.Split('\n').Where(l => !l.StartsWith("Sensor profile:", StringComparison.Ordinal)), line => Assert.True(line.Length <= Columns, line));
        }

        Assert.Equal("evening 1", SensorProfileReader.ReadFile(_folder.File("c.json")).Conditions.Protocol);
    }

    [Fact]
    public async Task IntakeAndCharacterise_WithPlanAsJson_HoldItInOneDocument()
    {
        string plan = await PlanAsync();

        CommandRun intake = await CommandRun.OfAsync(new Workbench(), "intake", rehearsed.Frames, "--plan", plan, "--json");
        CommandRun characterise = await CommandRun.OfAsync(new Workbench(), "characterise", rehearsed.Frames, "--out", _folder.File("c.json"), "--plan", plan, "--json");
        Directory.CreateDirectory(_folder.File("empty"));
        CommandRun refused = await CommandRun.OfAsync(new Workbench(), "characterise", _folder.File("empty"), "--out", _folder.File("d.json"), "--plan", plan, "--json");

        foreach (CommandRun run in new[] { intake, characterise, refused })
        {
            using var document = JsonDocument.Parse(run.Output);
            JsonElement said = document.RootElement.GetProperty("plan");
            Assert.Equal("evening", said.GetProperty("protocol").GetString());
            Assert.True(said.GetProperty("missing").GetArrayLength() > 0);
            Assert.Equal(JsonValueKind.Array, document.RootElement.GetProperty("findings").ValueKind);
        }

        Assert.Equal((0, 0, 3), (intake.Status, characterise.Status, refused.Status));
    }

    [Fact]
    public async Task Intake_WithWhatIsNoPlan_IsAFileError()
    {
        await File.WriteAllTextAsync(_folder.File("no.json"), "[]", TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "intake", rehearsed.Frames, "--plan", _folder.File("no.json"));

        Assert.Equal(4, run.Status);
        Assert.Contains("plan.json", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_FinishedProfileWithPlan_IsAUsageError()
    {
        string profile = _folder.File("p.json");
        SensorProfileWriter.WriteFile(SampleProfiles.ThreeIsos(), profile, TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "characterise", profile, "--out", _folder.File("q.json"), "--plan", await PlanAsync());

        Assert.Equal(2, run.Status);
    }

    private async Task<string> PlanAsync()
    {
        await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "evening", "--iso", "400", "--out", _folder.File("plan"));
        return Path.Combine(_folder.File("plan"), "plan.json");
    }
}
