using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary><c>debrief</c> from words to files, on a set that stands for an assignment.</summary>
public sealed class DebriefCommandTests(RehearsedSet set) : IClassFixture<RehearsedSet>, IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Debrief_Frames_WritesPageAndTables()
    {
        CommandRun run = await DebriefAsync(await ProfileAsync());

        Assert.Equal(0, run.Status);
        Assert.Equal(["debrief.csv", "debrief.html", "frames.parquet"], Directory.GetFiles(_folder.File("out")).Select(Path.GetFileName).Order());
        Assert.Contains("Room left to the clip", run.Output, StringComparison.Ordinal);
        Assert.Contains("Reading frames: ", run.Error, StringComparison.Ordinal);
        Assert.All(run.Output.Split('\n'), line => Assert.InRange(line.Length, 0, 100));
    }

    [Fact]
    public async Task Debrief_Json_HasTheContractsNames()
    {
        CommandRun run = await DebriefAsync(await ProfileAsync(), "--json");

        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement frame = document.RootElement.GetProperty("frames")[0];
        foreach (string name in new[] { "file", "iso", "profileIso", "clippedPercent", "headroomLeftEv", "brightTextureEv", "shadowPercent", "previewBlewRawHeld", "exposeToClipEv", "findings" })
        {
            Assert.True(frame.TryGetProperty(name, out _), name);
        }

        Assert.Equal(["snr10", "snr4"], frame.GetProperty("shadowPercent").EnumerateObject().Select(p => p.Name));
        Assert.Equal(["R", "G1", "G2", "B"], frame.GetProperty("clippedPercent").EnumerateObject().Select(p => p.Name));
        JsonElement summary = document.RootElement.GetProperty("summary");
        Assert.Equal(document.RootElement.GetProperty("frames").GetArrayLength(), summary.GetProperty("frames").GetInt32());
        Assert.True(summary.TryGetProperty("clippedFrames", out _) && summary.TryGetProperty("medianHeadroomLeftEv", out _) && summary.TryGetProperty("advice", out _));
    }

    [Fact]
    public async Task Debrief_AnotherBodysFrames_IsRefusedByCodeAndWritesNothing()
    {
        string profile = await ProfileAsync(p => p with { Body = p.Body with { SerialNumber = "1" } });

        CommandRun run = await DebriefAsync(profile, "--json");

        Assert.Equal(3, run.Status);
        Assert.Contains("body-mixed", run.Output, StringComparison.Ordinal);
        Assert.Contains("another body (serial number 20417)", run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_folder.File("out")));
    }

    [Fact]
    public async Task Debrief_OtherFirmware_IsDoneWithAWarning()
    {
        string profile = await ProfileAsync(p => p with { Body = p.Body with { Firmware = "1.0" } });

        CommandRun run = await DebriefAsync(profile);

        Assert.Equal(0, run.Status);
        Assert.Contains("firmware-mixed", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Debrief_DamagedFileAndEmptyFolder_AreNamed()
    {
        string job = _folder.File("job");
        Directory.CreateDirectory(job);
        string profile = await ProfileAsync();

        CommandRun empty = await CommandRun.OfAsync(new Workbench(), "debrief", profile, job, "--out", _folder.File("out"));
        string whole = Directory.GetFiles(set.Frames, "*.dng", SearchOption.AllDirectories)[0];
        File.Copy(whole, Path.Combine(job, "whole.dng"));
        byte[] bytes = await File.ReadAllBytesAsync(whole, TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(Path.Combine(job, "cut.dng"), bytes[..(bytes.Length / 2)], TestContext.Current.CancellationToken);
        CommandRun damaged = await CommandRun.OfAsync(new Workbench(), "debrief", profile, job, "--out", _folder.File("out"));

        Assert.Equal(3, empty.Status);
        Assert.Contains("frames-none", empty.Error, StringComparison.Ordinal);
        Assert.Equal(0, damaged.Status);
        Assert.Contains("cut.dng cannot be read", damaged.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Debrief_Cancelled_LeavesNothing()
    {
        string profile = await ProfileAsync();
        Workbench workbench = new() { Debrief = (_, _, _, _, _) => throw new OperationCanceledException() };

        CommandRun run = await CommandRun.OfAsync(workbench, "debrief", profile, set.Frames, "--out", _folder.File("out"));

        Assert.Equal(130, run.Status);
        Assert.False(Directory.Exists(_folder.File("out")));
    }

    private Task<CommandRun> DebriefAsync(string profile, params string[] more) =>
        CommandRun.OfAsync(new Workbench(), ["debrief", profile, set.Frames, "--out", _folder.File("out"), .. more]);

    private async Task<string> ProfileAsync(Func<SensorProfile, SensorProfile>? change = null)
    {
        string path = _folder.File("p.json");
        Assert.Equal(0, (await CommandRun.OfAsync(new Workbench(), "characterise", set.Frames, "--out", path)).Status);
        if (change is not null)
        {
            SensorProfileWriter.WriteFile(change(SensorProfileReader.ReadFile(path)), path, TestContext.Current.CancellationToken);
        }

        return path;
    }
}
