using System.Diagnostics;
using System.Text;
using SensorLab.Files;
using SensorLab.Fuzzing.Commands;
using SensorLab.Simulation.Writing;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>What lies in a set's folder, and where outputs are sent: nothing of it hurts, hangs or misleads.</summary>
public sealed class HostileSetTests(RehearsedSet set) : IClassFixture<RehearsedSet>
{
    [Theory]
    [InlineData("intake")]
    [InlineData("characterise")]
    public async Task AnyCommand_DarkFrameWhoseCodesTellNoMean_IsNoFaultOfTheProgram(string command)
    {
        using var folder = new TemporaryFolder();
        string small = folder.File("set");
        SmallSet.Write(small, new DngOptions(), hasPreviews: true);
        File.Copy(Path.Combine(Repository.Root, "tests/SensorLab.Fuzzing/Finds/raw/dark-codes-that-tell-no-mean"), Path.Combine(small, "dark", "P0001.dng"), overwrite: true);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), [command, small, .. command == "characterise" ? ["--out", folder.File("p.json")] : Array.Empty<string>()]);

        Assert.True(run.Status is ExitStatus.Done or ExitStatus.Refused, run.Error);
        Assert.DoesNotContain("NaN", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Intake_ZeroedBlockInADarkFrame_NamesTheFrameAndEnds()
    {
        using TemporaryFolder folder = CopyOf(set.Frames);
        string dark = Directory.GetFiles(folder.File("set/dark"))[1];
        byte[] bytes = Bytes(dark);
        bytes.AsSpan(bytes.Length / 2, 32768).Clear();
        Put(dark, bytes);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "intake", folder.File("set"));

        Assert.Contains(Path.GetFileName(dark), run.Error, StringComparison.Ordinal);
        Assert.Contains("frame-unreadable", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task IntakeAndCharacterise_OutputOverAFrameOrATable_AreRefusedAndTouchNothing()
    {
        using TemporaryFolder folder = CopyOf(set.Frames);
        string frame = Directory.GetFiles(folder.File("set/dark"))[0];
        Put(folder.File("set/frames.csv"), "file,role\n"u8);
        File.CreateSymbolicLink(folder.File("link.json"), frame);
        byte[] before = Bytes(frame);
        foreach (string output in new[] { frame, folder.File("set/frames.csv"), folder.File("link.json"), folder.File("set.truth.json") })
        {
            Put(folder.File("set.truth.json"), Bytes(set.Truth));

            CommandRun intake = output.EndsWith("truth.json", StringComparison.Ordinal)
                ? new CommandRun(ExitStatus.Usage, string.Empty, string.Empty)
                : await CommandRun.OfAsync(new Workbench(), "intake", folder.File("set"), "--thumbnail", output);
            CommandRun characterise = await CommandRun.OfAsync(new Workbench(), "characterise", folder.File("set"), "--out", output, "--truth", folder.File("set.truth.json"));

            Assert.Equal((ExitStatus.Usage, ExitStatus.Usage), (intake.Status, characterise.Status));
        }

        Assert.Equal(before, Bytes(frame));
        Assert.Equal("file,role\n"u8, Bytes(folder.File("set/frames.csv")));
    }

    [Theory]
    [InlineData("set/dark/pipe.dng", ExitStatus.Done)]
    [InlineData("set/frames.csv", ExitStatus.File)]
    public async Task Intake_PipeInTheSet_IsNotWaitedFor(string place, int status)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Kinds of files are told on Linux.");
        using TemporaryFolder folder = CopyOf(set.Frames);
        File.Delete(folder.File(place));
        using Process made = Process.Start("mkfifo", folder.File(place));
        await made.WaitForExitAsync(TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "intake", folder.File("set"));

        Assert.Equal(status, run.Status);
        Assert.Contains("only plain files are read", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("file,\u001b[31mrole\n")]
    [InlineData("file,role\na.dng,\u202edark\n")]
    [InlineData("file,iso\n\"a\u0007.dng\",\"\u009b2J\"\n")]
    [InlineData("file\n../\u001b]0;x\u0007\n")]
    public async Task Intake_TableThatWouldSteerTheTerminal_IsSpelledOut(string table)
    {
        using TemporaryFolder folder = new();
        Put(folder.File("frames.csv"), Encoding.UTF8.GetBytes(table));

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "intake", folder.Path);

        Assert.Equal(ExitStatus.Usage, run.Status);
        Assert.Equal(run.Error, ForeignText.Visible(run.Error, keepsLines: true));
    }

    [Fact]
    public async Task Assign_FramesNamedLikeFormulas_WritesNoneAndKnowsThemAgain()
    {
        using TemporaryFolder folder = CopyOf(set.Frames);
        File.Delete(folder.File("set/frames.csv"));
        string[] names = ["=1+1.dng", "+x.dng", "-x.dng", "@SUM(A1).dng", "'=x.dng", "\uFF1Dx.dng", "=a,b;\"c\".dng"];
        foreach ((string name, string frame) in names.Zip(Directory.GetFiles(folder.File("set/bracket")).Order(StringComparer.Ordinal)))
        {
            File.Move(frame, folder.File($"set/{name}"));
        }

        CommandRun first = await CommandRun.OfAsync(new Workbench(), "assign", folder.File("set"), "--metered", "1/8@400");
        byte[] table = Bytes(folder.File("set/frames.csv"));
        CommandRun second = await CommandRun.OfAsync(new Workbench(), "assign", folder.File("set"), "--metered", "1/8@400");
        CommandRun intake = await CommandRun.OfAsync(new Workbench(), "intake", folder.File("set"));

        Assert.Equal((ExitStatus.Done, ExitStatus.Done, ExitStatus.Done), (first.Status, second.Status, intake.Status));
        Assert.All(Encoding.UTF8.GetString(table).Split('\n'), line => Assert.DoesNotContain(line.TrimStart('"').FirstOrDefault(), "=+-@\uFF1D"));
        Assert.Equal(table, Bytes(folder.File("set/frames.csv")));
        Assert.DoesNotContain("frames.csv", intake.Error, StringComparison.Ordinal);
        Assert.Contains("96 raw files, 0 left out", intake.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnyCommand_EmptyWord_IsAUsageError()
    {
        foreach (string[] words in new[] { new[] { "report", "p.json", "--out", "" }, ["characterise", ""], ["rehearse", ""], ["place", "", "--iso", "100", "--tone", "1"], [""] })
        {
            Assert.Equal(ExitStatus.Usage, (await CommandRun.OfAsync(new Workbench(), words)).Status);
        }
    }

    [Fact]
    public async Task AnyCommand_PathLongerThanAPathCanBe_IsStatusFour()
    {
        string path = "/" + string.Join('/', Enumerable.Repeat(new string('p', 200), 30));
        foreach (string[] words in new[] { new[] { "intake", path }, ["characterise", path, "--out", "p.json"], ["place", path, "--iso", "100", "--tone", "1"], ["rehearse", path], ["target", "--out", path + ".pdf"], ["key", "--out", path], ["verify", path] })
        {
            CommandRun run = await CommandRun.OfAsync(new Workbench(), words);
            Assert.True(run.Status is ExitStatus.File or ExitStatus.NotValid, $"{words[0]}: {run.Status} {run.Error}");
        }
    }

    private static byte[] Bytes(string path) => File.ReadAllBytes(path);

    private static void Put(string path, ReadOnlySpan<byte> bytes) => File.WriteAllBytes(path, bytes);

    private static TemporaryFolder CopyOf(string frames)
    {
        var folder = new TemporaryFolder();
        foreach (string file in Directory.EnumerateFiles(frames, "*", SearchOption.AllDirectories))
        {
            string copy = folder.File(Path.Combine("set", Path.GetRelativePath(frames, file)));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        return folder;
    }
}
