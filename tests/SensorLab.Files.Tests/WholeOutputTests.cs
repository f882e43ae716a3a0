using System.Text;
using SensorLab.TestData;

namespace SensorLab.Files.Tests;

public sealed class WholeOutputTests
{
    private const int Runs = 40;
    private const int Files = 12;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public void PutInPlace_FileAndFolder_BothStandAndNothingElseDoes()
    {
        using TemporaryFolder folder = new();

        new WholeOutput().WithFile(folder.File("p.json"), Writing("new")).WithFolder(folder.File("r"), FilesOf("new")).PutInPlace(Cancellation);

        Assert.Equal("new", File.ReadAllText(folder.File("p.json")));
        Assert.Equal("new", File.ReadAllText(folder.File("r/charts/b.svg")));
        Assert.Equal(["p.json", "r", "r/a.html", "r/charts", "r/charts/b.svg"], Below(folder.Path));
    }

    [Fact]
    public void PutInPlace_OneFileCannotBeMade_LeavesEverythingAsItWas()
    {
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("p.json"), "old");

        Assert.Throws<InvalidDataException>(() => new WholeOutput()
            .WithFolder(folder.File("r"), FilesOf("new"))
            .WithFile(folder.File("p.json"), _ => throw new InvalidDataException()).PutInPlace(Cancellation));

        Assert.Equal(["p.json"], Below(folder.Path));
        Assert.Equal("old", File.ReadAllText(folder.File("p.json")));
    }

    [Fact]
    public void PutInPlace_CancelledWhileMade_LeavesEverythingAsItWas()
    {
        using TemporaryFolder folder = new();
        using CancellationTokenSource stop = new();
        File.WriteAllText(folder.File("p.json"), "old");

        Assert.Throws<OperationCanceledException>(() => new WholeOutput()
            .WithFile(folder.File("p.json"), Writing("new"))
            .WithFile(folder.File("q.json"), _ => stop.Cancel()).PutInPlace(stop.Token));

        Assert.Equal(["p.json"], Below(folder.Path));
        Assert.Equal("old", File.ReadAllText(folder.File("p.json")));
    }

    [Fact]
    public void PutInPlace_LaterMoveFails_UndoesTheEarlierOnes()
    {
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("p.json"), "old");
        Directory.CreateDirectory(folder.File("r"));
        File.WriteAllText(folder.File("r/a.html"), "old");

        // A folder that comes into being in a file's place after everything was looked at.
        WholeOutput output = new WholeOutput()
            .WithFile(folder.File("p.json"), Writing("new"))
            .WithFolder(folder.File("r"), [("a.html", Bytes("new")), ("z.html", Bytes("new"))]);
        Directory.CreateDirectory(folder.File("r/z.html/mine"));

        Assert.ThrowsAny<Exception>(() => output.PutInPlace(Cancellation));

        Assert.Equal("old", File.ReadAllText(folder.File("p.json")));
        Assert.Equal("old", File.ReadAllText(folder.File("r/a.html")));
        Assert.Equal(["p.json", "r", "r/a.html", "r/z.html", "r/z.html/mine"], Below(folder.Path));
    }

    [Fact]
    public void WithFile_InputByAnyName_IsRefused()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Nodes are told on Linux.");
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("key.pem"), "secret");
        File.CreateSymbolicLink(folder.File("link.zip"), folder.File("key.pem"));
        Directory.CreateSymbolicLink(folder.File("there"), folder.Path);
        InputFiles inputs = new(folder.File("key.pem"));

        foreach (string path in new[] { "key.pem", "./key.pem", "link.zip", "there/key.pem", "there/link.zip" })
        {
            Assert.Throws<OutputIsInputException>(() => new WholeOutput(inputs).WithFile(folder.File(path), Writing("new")));
        }

        Assert.Throws<OutputIsInputException>(() => new WholeOutput(inputs).WithFolder(folder.Path, [("key.pem", Bytes("new"))]));
    }

    [Fact]
    public void WithFolder_LinkInIt_IsNotFollowed()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need a privilege there.");
        using TemporaryFolder folder = new();
        Directory.CreateDirectory(folder.File("elsewhere"));
        Directory.CreateDirectory(folder.File("r"));
        Directory.CreateSymbolicLink(folder.File("r/charts"), folder.File("elsewhere"));

        Assert.Throws<IOException>(() => new WholeOutput().WithFolder(folder.File("r"), FilesOf("new")));

        Assert.Empty(Directory.GetFileSystemEntries(folder.File("elsewhere")));
    }

    [Fact]
    public void WithNewFile_Existing_IsNeverReplaced()
    {
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("key.pem"), "mine");

        Assert.Throws<IOException>(() => new WholeOutput().WithNewFile(folder.File("key.pem"), Writing("new"), UnixFileMode.UserRead));

        Assert.Equal("mine", File.ReadAllText(folder.File("key.pem")));
    }

    [Fact]
    public void PutInPlace_WholeFolder_ReplacesIt()
    {
        using TemporaryFolder folder = new();
        Directory.CreateDirectory(folder.File("set"));
        File.WriteAllText(folder.File("set/old"), "old");

        new WholeOutput().WithWholeFolder(folder.File("set"), path => File.WriteAllText(Path.Combine(path, "new"), "new"), () => { }).PutInPlace(Cancellation);

        Assert.Equal(["set", "set/new"], Below(folder.Path));
    }

    [Fact]
    public void PutInPlace_LeftoversOfADeadRun_AreCleared()
    {
        using TemporaryFolder folder = new();
        Directory.CreateDirectory(folder.File(".sensorlab-dead.run/new"));
        File.WriteAllText(folder.File(".sensorlab-dead.run/new/p.json"), "half");
        File.WriteAllText(folder.File(".sensorlab-dead.run.lock"), string.Empty);

        WholeFile.Write(folder.File("p.json"), Writing("new"), Cancellation);

        Assert.Equal(["p.json"], Below(folder.Path));
        Assert.Equal("new", File.ReadAllText(folder.File("p.json")));
    }

    [Fact]
    public void PutInPlace_LeftoversWithoutALock_AreCleared()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder.File(".sensorlab-dead.run/new"));

        WholeFile.Write(folder.File("a.txt"), "new"u8.ToArray(), TestContext.Current.CancellationToken);

        Assert.Equal([folder.File("a.txt")], Directory.EnumerateFileSystemEntries(folder.Path));
    }

    [Fact]
    public void PutInPlace_ADeadRunHadBegunItsMoves_BringsThemToTheirEnd()
    {
        using TemporaryFolder folder = new();
        Directory.CreateDirectory(folder.File(".sensorlab-dead.run/new"));
        File.WriteAllText(folder.File(".sensorlab-dead.run/new/b"), "second");
        File.WriteAllText(folder.File(".sensorlab-dead.run/moves"), "=a\n=b\n=../outside\n");
        File.WriteAllText(folder.File(".sensorlab-dead.run.lock"), string.Empty);
        File.WriteAllText(folder.File("a"), "second");
        File.WriteAllText(folder.File("b"), "first");

        WholeFile.Write(folder.File("other"), Writing("new"), Cancellation);

        Assert.Equal(["a", "b", "other"], Below(folder.Path));
        Assert.Equal("second", File.ReadAllText(folder.File("b")));
    }

    // A run that looks for dead ones must never take one for dead that has made its lock's file and not yet locked it.
    [Fact]
    public void Write_ManyAtOnceIntoOneFolder_AllStand()
    {
        const int files = 2000;
        using var folder = new TemporaryFolder();
        Parallel.For(0, files, i => WholeFile.Write(Path.Combine(folder.Path, $"{i}.txt"), new byte[] { 1 }));
        Assert.Equal(files, Directory.EnumerateFiles(folder.Path).Count());
        Assert.Empty(Directory.EnumerateDirectories(folder.Path));
    }

    [Fact]
    public void PutInPlace_ALivingRunsFiles_AreLeftAlone()
    {
        using TemporaryFolder folder = new();

        new WholeOutput().WithFile(folder.File("outer"), stream =>
        {
            WholeFile.Write(folder.File("inner"), Writing("new"), Cancellation);
            stream.Write("new"u8);
        }).PutInPlace(Cancellation);

        Assert.Equal(["inner", "outer"], Below(folder.Path));
    }

    [Fact]
    public async Task PutInPlace_TwoRunsAtOnePlace_OneWinsWhole()
    {
        using TemporaryFolder folder = new();
        for (int run = 0; run < Runs; run++)
        {
            await Task.WhenAll(Enumerable.Range(0, 2).Select(writer => Task.Run(
                () => new WholeOutput()
                    .WithFile(folder.File("p.json"), Writing($"{writer}"))
                    .WithFolder(folder.File("r"), Enumerable.Range(0, Files).Select(i => ($"{i}", Bytes($"{writer}"))))
                    .PutInPlace(Cancellation),
                Cancellation)));

            Assert.Single(Below(folder.Path).Where(path => path != "r").Select(path => File.ReadAllText(folder.File(path))).Distinct());
        }

        Assert.Equal(Files + 2, Below(folder.Path).Count());
    }

    [Fact]
    public void PutInPlace_FullDisk_LeavesTheOldWhole()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "No such device here.");
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("p.json"), "old");

        Assert.ThrowsAny<IOException>(() => new WholeOutput().WithFile(folder.File("p.json"), _ =>
        {
            using FileStream full = new("/dev/full", FileMode.Open, FileAccess.Write);
            full.Write(new byte[100_000]);
        }).PutInPlace(Cancellation));

        Assert.Equal(["p.json"], Below(folder.Path));
    }

    private static Action<Stream> Writing(string text) => stream => stream.Write(Encoding.UTF8.GetBytes(text));

    private static ReadOnlyMemory<byte> Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static IEnumerable<(string, ReadOnlyMemory<byte>)> FilesOf(string text) => [("a.html", Bytes(text)), ("charts/b.svg", Bytes(text))];

    private static IEnumerable<string> Below(string folder) =>
        Directory.EnumerateFileSystemEntries(folder, "*", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(folder, path)).Order(StringComparer.Ordinal);
}
