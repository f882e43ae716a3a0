namespace SensorLab.Cli.Tests;

/// <summary>A system without OpenSSL gets a sentence, not an abort.</summary>
public sealed class HashLibraryTests
{
    [Fact]
    public void Require_NoneOfTheNames_IsAFileFaultWithItsRemedy()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Other systems bring what hashes.");

        (int status, string message) = CommandFaults.Of(Assert.Throws<FileNotFoundException>(() => HashLibrary.Require(["libssl.so.none"])));

        Assert.Equal(ExitStatus.File, status);
        Assert.Contains("apt-get install libssl3", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Require_OneOfTheNames_IsEnough() => HashLibrary.Require(["libssl.so.none", "libc.so.6"]);
}
