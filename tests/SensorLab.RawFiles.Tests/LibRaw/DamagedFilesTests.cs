using System.Diagnostics;
using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Tests.LibRaw;

public class DamagedFilesTests
{
    private const int CutsPerFile = 200;

    /// <summary>Directories and tables of a maker's file; its mosaic, where it decodes, lies in LibRaw's memory.</summary>
    private const long MostAllocatedBytes = 4 << 20;

    /// <summary>Generous on a busy machine; what is guarded against are hangs.</summary>
    private const double MostSeconds = 20;

    public static TheoryData<string> Damaged() => [.. SharedData.List("*", "real-data", "damaged").DefaultIfEmpty("(absent)")];

    [Theory]
    [MemberData(nameof(Damaged))]
    public void Open_DamagedFile_EndsInANamedError(string name)
    {
        _ = LibRawCalls.RequireLibrary();
        string path = SharedData.Require("real-data", "damaged", name);

        Exception? error = OpenInBounds(path, LibRawMosaicReader.Open);

        Assert.True(error is MalformedFileException or UnsupportedFileException, $"{error}");
    }

    [Theory]
    [MemberData(nameof(Damaged))]
    public void OpenByContent_DamagedFile_EndsInANamedError(string name)
    {
        _ = LibRawCalls.RequireLibrary();
        Exception? error = OpenInBounds(SharedData.Require("real-data", "damaged", name), RawFileOpener.Open);

        Assert.True(error is MalformedFileException or UnsupportedFileException, $"{error}");
    }

    [Theory]
    [InlineData("canon_eos30d_cr2/IMG_5952.CR2")]
    [InlineData("canon_powershot_crw/CRW_0101.CRW")]
    [InlineData("kodak_kdc/DC0008L.KDC")]
    [InlineData("kodak_kdc/P003908.KDC")]
    public void Open_TruncatedAnywhere_EndsInANamedError(string name)
    {
        _ = LibRawCalls.RequireLibrary();
        byte[] whole = File.ReadAllBytes(SharedData.Require(["real-data", "raw", .. name.Split('/')]));
        LibRawCalls.WithFile(whole, "cut" + Path.GetExtension(name), path =>
        {
            using FileStream file = new(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
            for (int cut = CutsPerFile - 1; cut >= 0; cut--)
            {
                file.SetLength((long)whole.Length * cut / CutsPerFile);

                Exception? error = OpenInBounds(path, LibRawMosaicReader.Open);

                Assert.True(error is MalformedFileException or UnsupportedFileException, $"{file.Length} of {whole.Length} bytes: {error?.ToString() ?? "no error"}");
            }

            return 0;
        });
    }

    /// <summary>LibRaw returns success here: its data-error handler alone tells.</summary>
    [Theory]
    [InlineData("canon_eos30d_cr2/IMG_5952.CR2")]
    [InlineData("canon_powershot_crw/CRW_0101.CRW")]
    public void Open_CompressedDataOverwritten_IsMalformed(string name)
    {
        _ = LibRawCalls.RequireLibrary();
        byte[] file = File.ReadAllBytes(SharedData.Require(["real-data", "raw", .. name.Split('/')]));
        new Random(30).NextBytes(file.AsSpan(file.Length / 2, 512));

        MalformedFileException error = LibRawCalls.WithFile(file, "a" + Path.GetExtension(name), path =>
            Assert.Throws<MalformedFileException>(() => LibRawMosaicReader.Open(path)));

        Assert.Contains("met errors", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_SizesThatTheFileCannotHold_IsMalformed()
    {
        LibRawSizes sizes = new(60000, 60000, new PixelRectangle(0, 0, 60000, 60000), 0);

        Assert.Throws<MalformedFileException>(() => sizes.Check(1L << 40, new LibRawDecoder(null)));
        Assert.Throws<MalformedFileException>(() => (sizes with { RawWidth = 6000, RawHeight = 4000 }).Check(100_000, new LibRawDecoder(null)));
        Assert.Throws<MalformedFileException>(() => (sizes with { RawWidth = 6000, RawHeight = 4000 }).Check(12_000_000, new LibRawDecoder("uncompressed")));
    }

    [Fact]
    public void Open_UnknownHeader_IsUnsupportedWithAConversionAsRemedy()
    {
        byte[] noise = new byte[100_000];
        new Random(20261).NextBytes(noise);

        UnsupportedFileException refusal = LibRawCalls.WithFile(noise, "a.raw", path =>
            Assert.Throws<UnsupportedFileException>(() => LibRawMosaicReader.Open(path)));

        Assert.False(refusal.IsUnsuitable);
        Assert.Contains("DNG", refusal.Remedy, StringComparison.Ordinal);
    }

    private static Exception? OpenInBounds(string path, Func<string, IMosaicReader> open)
    {
        // What a type or table costs when it is first used is not the file's doing.
        _ = LibRawLibrary.Installed;
        var watch = Stopwatch.StartNew();
        long before = GC.GetAllocatedBytesForCurrentThread();
        Exception? error = Record.Exception(() => open(path).Dispose());

        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, MostAllocatedBytes);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, MostSeconds);
        return error;
    }
}
