using System.Diagnostics;
using SensorLab.TestData;

namespace SensorLab.Files.Tests;

public sealed class PlainFileTests
{
    [Fact]
    public void OpenRead_PipeDeviceOrLinkToOne_IsRefusedAtOnce()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Kinds of files are told on Linux.");
        using TemporaryFolder folder = new();
        using Process made = Process.Start("mkfifo", folder.File("pipe"));
        made.WaitForExit();
        File.CreateSymbolicLink(folder.File("link"), folder.File("pipe"));
        File.CreateSymbolicLink(folder.File("zero"), "/dev/zero");

        foreach (string name in new[] { "pipe", "link", "zero" })
        {
            IOException thrown = Assert.Throws<IOException>(() => PlainFile.OpenRead(folder.File(name)));
            Assert.Contains("only plain files are read", thrown.Message, StringComparison.Ordinal);
            Assert.False(PlainFile.IsPlain(folder.File(name)));
        }
    }

    [Fact]
    public void OpenRead_PlainFileThroughALink_IsRead()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need a privilege there.");
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("a"), "text");
        File.CreateSymbolicLink(folder.File("link"), folder.File("a"));

        Assert.Equal("text"u8, PlainFile.ReadAllBytes(folder.File("link"), 4));
    }

    [Fact]
    public void ReadAllBytes_LargerThanItsKind_IsRefused()
    {
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("a"), "text");

        Assert.Throws<IOException>(() => PlainFile.ReadAllBytes(folder.File("a"), 3));
    }
}
