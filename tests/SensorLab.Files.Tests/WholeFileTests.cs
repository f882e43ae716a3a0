using SensorLab.TestData;

namespace SensorLab.Files.Tests;

public sealed class WholeFileTests
{
    private static readonly byte[] Content = "whole"u8.ToArray();

    [Fact]
    public void Write_NewOrExistingFile_HoldsTheContentAlone()
    {
        using TemporaryFolder folder = new();
        WholeFile.Write(folder.File("a"), s => s.Write("something longer"u8), TestContext.Current.CancellationToken);

        WholeFile.Write(folder.File("a"), s => s.Write(Content), TestContext.Current.CancellationToken);

        Assert.Equal(Content, File.ReadAllBytes(folder.File("a")));
        Assert.Single(Directory.GetFileSystemEntries(folder.Path));
    }

    [Fact]
    public void Write_FailureHalfWay_LeavesTheExistingFileAndNothingElse()
    {
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("a"), "before");

        Assert.Throws<InvalidDataException>(() => WholeFile.Write(folder.File("a"), FailHalfWay, TestContext.Current.CancellationToken));
        Assert.Throws<InvalidDataException>(() => WholeFile.Write(folder.File("b"), FailHalfWay, TestContext.Current.CancellationToken));

        Assert.Equal("before", File.ReadAllText(folder.File("a")));
        Assert.Single(Directory.GetFileSystemEntries(folder.Path));
    }

    [Fact]
    public void Write_CancelledWhileWriting_LeavesTheExistingFileAndNothingElse()
    {
        using TemporaryFolder folder = new();
        using CancellationTokenSource source = new();
        File.WriteAllText(folder.File("a"), "before");

        Assert.Throws<OperationCanceledException>(() => WholeFile.Write(folder.File("a"), WriteAndCancel, source.Token));

        Assert.Equal("before", File.ReadAllText(folder.File("a")));
        Assert.Single(Directory.GetFileSystemEntries(folder.Path));

        void WriteAndCancel(Stream stream)
        {
            stream.Write(Content);
            source.Cancel();
        }
    }

    [Fact]
    public void Write_FolderMissing_ThrowsIoExceptionAndMakesNone()
    {
        using TemporaryFolder folder = new();

        Assert.Throws<DirectoryNotFoundException>(() => WholeFile.Write(folder.File("none/a"), s => s.Write(Content), TestContext.Current.CancellationToken));

        Assert.Empty(Directory.GetFileSystemEntries(folder.Path));
    }

    [Fact]
    public void Write_TargetIsAFolder_ThrowsAndKeepsIt()
    {
        using TemporaryFolder folder = new();
        Directory.CreateDirectory(folder.File("a"));

        Assert.Throws<UnauthorizedAccessException>(() => WholeFile.Write(folder.File("a"), s => s.Write(Content), TestContext.Current.CancellationToken));

        Assert.True(Directory.Exists(folder.File("a")));
    }

    [Fact]
    public void Write_SymbolicLink_ReplacesWhatItPointsTo()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need a privilege there.");
        using TemporaryFolder folder = new();
        Directory.CreateDirectory(folder.File("real"));
        File.WriteAllText(folder.File("real/a"), "before");
        File.CreateSymbolicLink(folder.File("link"), folder.File("real/a"));

        WholeFile.Write(folder.File("link"), s => s.Write(Content), TestContext.Current.CancellationToken);

        Assert.NotNull(new FileInfo(folder.File("link")).LinkTarget);
        Assert.Equal(Content, File.ReadAllBytes(folder.File("real/a")));
    }

    [Fact]
    public void Write_Device_IsRefusedAndStaysOne()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "No such device there.");
        using TemporaryFolder folder = new();
        File.CreateSymbolicLink(folder.File("link"), "/dev/null");

        Assert.Throws<IOException>(() => WholeFile.Write("/dev/null", s => s.Write(Content), TestContext.Current.CancellationToken));
        Assert.Throws<IOException>(() => WholeFile.Write(folder.File("link"), s => s.Write(Content), TestContext.Current.CancellationToken));

        Assert.Equal(FileNodeKind.Device, FileNode.Of("/dev/null")?.Kind);
    }

    [Theory]
    [InlineData(255, true)]
    [InlineData(256, false)]
    public void Write_LongName_IsWrittenWhereANameCanBeSoLong(int length, bool isWritten)
    {
        using TemporaryFolder folder = new();
        string path = folder.File(new string('n', length));

        Exception? fault = Record.Exception(() => WholeFile.Write(path, s => s.Write(Content), TestContext.Current.CancellationToken));

        Assert.Equal(isWritten, File.Exists(path));
        Assert.Equal(isWritten, fault is null);
        Assert.Equal(isWritten ? 1 : 0, Directory.GetFileSystemEntries(folder.Path).Length);
    }

    private static void FailHalfWay(Stream stream)
    {
        stream.Write(Content);
        stream.Flush();
        throw new InvalidDataException();
    }
}
