using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class RehearseCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Rehearse_SmallSet_WritesFramesAndTruth()
    {
        string frames = _folder.File("set");

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "rehearse", frames, "--iso", "100,400", "--pixels", "16x8", "--seed", "7");

        Assert.Equal(0, run.Status);
        Assert.True(File.Exists(frames + ".truth.json"));
        int count = Directory.EnumerateFiles(frames, "*.dng", SearchOption.AllDirectories).Count();
        Assert.Contains($"Rehearsed {count} frames at ISO 100, 400: {frames}\n", run.Output, StringComparison.Ordinal);
        Assert.Contains($"{frames}.truth.json", run.Output, StringComparison.Ordinal);
        Assert.Contains($"Shooting frames: {count} of {count}", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rehearse_Options_ReachTheSimulator()
    {
        await File.WriteAllTextAsync(_folder.File("body.json"), "{\"bitDepth\": 12, \"blackLevelDn\": 64, \"fullWellElectron\": 9000}", TestContext.Current.CancellationToken);
        RehearsalOptions? seen = null;
        Workbench workbench = CommandRun.Sample with
        {
            Rehearse = (_, options, _, _) =>
            {
                seen = options;
                return [];
            },
        };

        CommandRun run = await CommandRun.OfAsync(
            workbench, "rehearse", _folder.File("set"), "--iso", "200,800", "--pixels", "64x48", "--seed", "9", "--body", _folder.File("body.json"),
            "--flaw", "light-flicker=0.03", "--flaw", "dark-missing");

        Assert.Equal(string.Empty, run.Error);
        Assert.NotNull(seen);
        Assert.Equal([new FlawRequest("light-flicker", 0.03), new FlawRequest("dark-missing")], seen.Flaws);
        Assert.Equal([200, 800], seen.IsoValues);
        Assert.Equal((64, 48, 9UL, 12), (seen.WidthPixels, seen.HeightPixels, seen.Seed, seen.Body.BitDepth));
    }

    [Theory]
    [InlineData("--iso", "123")]
    [InlineData("--iso", "100,100")]
    [InlineData("--iso", "100;400")]
    [InlineData("--iso", "-100")]
    [InlineData("--pixels", "big")]
    [InlineData("--pixels", "100000x100000")]
    [InlineData("--seed", "-1")]
    [InlineData("--flaw", "too-beautiful")]
    [InlineData("--flaw", "light-flicker=much")]
    [InlineData("--flaw", "light-flicker=-1")]
    [InlineData("--flaw", "body-mixed=2")]
    public async Task Rehearse_WordThatIsOff_IsAUsageErrorAndWritesNothing(string option, string word)
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "rehearse", _folder.File("set"), option, word);

        Assert.Equal(2, run.Status);
        Assert.Empty(run.Output);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    [Fact]
    public async Task Rehearse_OverOtherFiles_IsRefusedAndLeavesThem()
    {
        string frames = Directory.CreateDirectory(_folder.File("photos")).FullName;
        string photo = Path.Combine(frames, "lighthouse.dng");
        await File.WriteAllTextAsync(photo, "x", TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "rehearse", frames, "--pixels", "16x8");

        Assert.Equal(4, run.Status);
        Assert.True(File.Exists(photo));
        Assert.False(File.Exists(frames + ".truth.json"));
    }

    [Theory]
    [InlineData("none.json", null)]
    [InlineData("broken.json", "{")]
    [InlineData("unknown.json", "{\"wings\": 2}")]
    public async Task Rehearse_BodyFileThatIsNone_HasItsStatus(string name, string? text)
    {
        if (text is not null)
        {
            await File.WriteAllTextAsync(_folder.File(name), text, TestContext.Current.CancellationToken);
        }

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "rehearse", _folder.File("set"), "--body", _folder.File(name));

        Assert.Equal(4, run.Status);
        Assert.False(Directory.Exists(_folder.File("set")));
    }
}
