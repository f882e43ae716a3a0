using System.Text.Json;
using SensorLab.Assignment;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class AssignCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Assign_Words_ReachTheLibraryAndTheTableIsWritten()
    {
        CardReading? seen = null;

        CommandRun run = await CommandRun.OfAsync(Giving(Card(true), r => seen = r), "assign", _folder.Path, "--metered", "1/8@100", "--metered", "2\"@400");

        Assert.Equal(0, run.Status);
        Assert.Equal([new MeteredSetting(0.125, 100), new MeteredSetting(2, 400)], seen!.Metered);
        Assert.Equal("file,role\n", await File.ReadAllTextAsync(_folder.File("frames.csv"), TestContext.Current.CancellationToken));
        Assert.Contains("A day at the sea: b.dng", run.Output, StringComparison.Ordinal);
        Assert.Contains("Question 1: Which?", run.Output, StringComparison.Ordinal);
        Assert.Contains($"As assigned the set can be characterised.\n  sensorlab characterise {_folder.Path} --out PROFILE.json", run.Output.ReplaceLineEndings("\n"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Assign_Json_IsOneDocumentInTheContractsNames()
    {
        CommandRun run = await CommandRun.OfAsync(Giving(Card(false)), "assign", _folder.Path, "--out", _folder.File("elsewhere.csv"), "--json");

        Assert.Equal(3, run.Status);
        Assert.True(File.Exists(_folder.File("elsewhere.csv")));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Equal(["frames", "questions", "findings"], document.RootElement.EnumerateObject().Select(p => p.Name));
        JsonElement frame = document.RootElement.GetProperty("frames")[0];
        Assert.Equal(("a.dng", "bracket", 100, "far", true, "Why."), (
            frame.GetProperty("file").GetString(), frame.GetProperty("role").GetString(), frame.GetProperty("iso").GetInt32(),
            frame.GetProperty("lightStep").GetString(), frame.GetProperty("sure").GetBoolean(), frame.GetProperty("why").GetString()));
        Assert.Equal("none", document.RootElement.GetProperty("frames")[1].GetProperty("role").GetString());
        Assert.Equal("Which?", document.RootElement.GetProperty("questions")[0].GetProperty("question").GetString());
        Assert.Equal("refusal", document.RootElement.GetProperty("findings")[0].GetProperty("severity").GetString());
    }

    [Fact]
    public async Task Assign_NoFrameOfASet_WritesNothingAndSaysSo()
    {
        CardAssignment none = Card(false) with
        {
            Assignment = new FrameAssignment { Frames = [new AssignedFrame("b.dng", FrameUse.None, 200, IsSure: true, "A day at the sea.")], Questions = [] },
        };

        CommandRun run = await CommandRun.OfAsync(Giving(none), "assign", _folder.Path);

        Assert.Equal(3, run.Status);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
        Assert.Contains("Nothing written", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Assign_SetThatLacksSomething_EndsWith3AndWritesTheTableForTheAnswers()
    {
        CommandRun run = await CommandRun.OfAsync(Giving(Card(false)), "assign", _folder.Path);

        Assert.Equal(3, run.Status);
        Assert.True(File.Exists(_folder.File("frames.csv")));
    }

    [Theory]
    [InlineData("--metered", "1/8")]
    [InlineData("--metered", "never@100")]
    [InlineData("--out", "table.txt")]
    public async Task Assign_WordThatIsOff_IsAUsageErrorAndWritesNothing(string option, string word)
    {
        CommandRun run = await CommandRun.OfAsync(Giving(Card(true)), "assign", _folder.Path, option, word);

        Assert.Equal(2, run.Status);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    [Fact]
    public async Task RehearsePlan_ThenAssign_OfARealCard()
    {
        string plan = _folder.File("plan");
        string frames = _folder.File("set");
        string card = Directory.CreateDirectory(_folder.File("card")).FullName;
        await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "evening", "--iso", "100", "--out", plan);
        CommandRun rehearsed = await CommandRun.OfAsync(new Workbench(), "rehearse", frames, "--plan", Path.Combine(plan, "plan.json"), "--pixels", "120x80");
        foreach (string file in Directory.EnumerateFiles(frames, "*.dng", SearchOption.AllDirectories))
        {
            File.Move(file, Path.Combine(card, Path.GetFileName(file)));
        }

        CommandRun assigned = await CommandRun.OfAsync(new Workbench(), "assign", card, "--plan", Path.Combine(plan, "plan.json"));
        CommandRun looked = await CommandRun.OfAsync(new Workbench(), "intake", card, "--plan", Path.Combine(plan, "plan.json"));

        Assert.Equal((0, 0, 0), (rehearsed.Status, assigned.Status, looked.Status));
        Assert.Contains("nothing is missing", assigned.Output, StringComparison.Ordinal);
        Assert.Contains("nothing is missing", looked.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RehearsePlan_IsoThatThePlanOrTheBodyLacks_IsSaidInTheUsersWords()
    {
        string plan = _folder.File("plan");
        await CommandRun.OfAsync(new Workbench(), "plan", "--protocol", "evening", "--iso", "64,100", "--out", plan);

        CommandRun notPlanned = await CommandRun.OfAsync(new Workbench(), "rehearse", _folder.File("set"), "--plan", Path.Combine(plan, "plan.json"), "--iso", "400");
        CommandRun notThere = await CommandRun.OfAsync(new Workbench(), "rehearse", _folder.File("set"), "--plan", Path.Combine(plan, "plan.json"));

        Assert.Equal((2, 2), (notPlanned.Status, notThere.Status));
        Assert.Contains("the plan has no ISO 400; it has 64, 100", notPlanned.Error, StringComparison.Ordinal);
        Assert.Contains("ISO 64, which this body does not have", notThere.Error, StringComparison.Ordinal);
    }

    private static Workbench Giving(CardAssignment card, Action<CardReading>? see = null) => CommandRun.Sample with
    {
        Assign = (_, reading, _, _, _) =>
        {
            see?.Invoke(reading);
            return Task.FromResult(card);
        },
    };

    private static CardAssignment Card(bool canBe) => new()
    {
        Assignment = new FrameAssignment
        {
            Frames =
            [
                new AssignedFrame("a.dng", new FrameUse(Frames.FrameRole.Bracket, "far"), 100, IsSure: true, "Why."),
                new AssignedFrame("b.dng", FrameUse.None, 200, IsSure: true, "A day at the sea."),
            ],
            Questions = [new AssignmentQuestion(["a.dng"], "Which?")],
        },
        CanBeCharacterised = canBe,
        Findings = [new Finding { Code = FindingCode.MeteredMissing, Severity = FindingSeverity.Refusal, Message = "None.", Remedy = "Shoot some." }],
        FilesIgnored = 1,
        Table = "file,role\n"u8.ToArray(),
        Shot = [],
    };
}
