using SensorLab.RawFiles.LibRaw;
using SensorLab.RawFiles.Previews;
using SensorLab.RawFiles.Tests.LibRaw;

namespace SensorLab.RawFiles.Tests.Previews;

public class PreviewExtractorTests
{
    [Theory]
    [InlineData("real-data/raw/canon_eos30d_cr2/IMG_5952.CR2", 1728, 1152, false)]
    [InlineData("real-data/raw/canon_powershot_crw/CRW_0101.CRW", 640, 480, true)]
    [InlineData("real-data/raw/dng/sample_1mp.dng", 256, 144, false)]
    [InlineData("foreign-sets/clean/dark/P0001.dng", 160, 120, false)]
    public void Extract_RealFile_GivesTheLargestEmbeddedJpeg(string name, int width, int height, bool needsLibrary)
    {
        string path = SharedData.Require(name.Split('/'));
        if (needsLibrary)
        {
            _ = LibRawCalls.RequireLibrary();
        }

        JpegSize? size = JpegSize.Read(PreviewExtractor.Extract(path));

        Assert.NotNull(size);
        Assert.Equal(new JpegSize(width, height), size);
    }

    [Fact]
    public void Extract_NoneEmbedded_TakesTheOneBeside()
    {
        byte[]? preview = LibRawCalls.WithFile(ProofDng.Encode(), "a.dng", path =>
        {
            Assert.Null(PreviewExtractor.Extract(path));
            File.WriteAllBytes(Path.ChangeExtension(path, ".JPG"), Jpeg(30, 20));
            return PreviewExtractor.Extract(path);
        });

        Assert.Equal(Jpeg(30, 20), preview);
    }

    [Fact]
    public void Extract_SeveralEmbedded_TakesTheOneWithTheMostPixelsNotTheLongest()
    {
        byte[] small = [.. Jpeg(100, 100), .. new byte[500]];
        byte[] large = Jpeg(200, 100);

        byte[]? preview = LibRawCalls.WithFile(WithPreviews(small, large), "a.dng", PreviewExtractor.Extract);

        Assert.Equal(large, preview);
    }

    [Theory]
    [InlineData(0xC3, 8)]
    [InlineData(0xC0, 12)]
    public void JpegSize_LosslessOrDeeper_IsNoPreview(byte marker, byte bits)
    {
        byte[] jpeg = Jpeg(30, 20);
        jpeg[3] = marker;
        jpeg[6] = bits;

        Assert.Null(JpegSize.Read(jpeg));
    }

    [Fact]
    public void JpegSize_CutAnywhere_IsNullOrTheSize()
    {
        byte[] jpeg = Jpeg(30, 20);
        for (int length = 0; length <= jpeg.Length; length++)
        {
            JpegSize? size = JpegSize.Read(jpeg.AsSpan(0, length));

            Assert.True(size is null || size == new JpegSize(30, 20));
        }

        Assert.Equal(new JpegSize(30, 20), JpegSize.Read(jpeg));
    }

    [Fact]
    public void Extract_DamagedFile_NeverFails()
    {
        _ = SharedData.Require("real-data", "damaged");
        foreach (string name in SharedData.List("*", "real-data", "damaged"))
        {
            byte[]? preview = PreviewExtractor.Extract(SharedData.Require("real-data", "damaged", name));

            Assert.True(preview is null || JpegSize.Read(preview) is not null, name);
        }
    }

    /// <summary>The start of a JPEG, its frame header first, and its end: no picture, but all that is looked at.</summary>
    private static byte[] Jpeg(byte width, byte height) =>
        [0xFF, 0xD8, 0xFF, 0xC0, 0, 11, 8, 0, height, 0, width, 1, 1, 0x11, 0, 0xFF, 0xD9];

    private static byte[] WithPreviews(byte[] first, byte[] second)
    {
        const int FirstDirectory = 8;
        const int SecondDirectory = 200;
        const int FirstAt = 400;
        byte[] file = new byte[8192];
        "II*\0\u0008\0\0\0"u8.CopyTo(file);
        int secondAt = FirstAt + first.Length;
        TiffDirectoryWriter main = new(file, FirstDirectory, 0);
        main.Short(259, 7);
        main.Short(262, 6);
        main.Long(273, FirstAt);
        main.Long(279, first.Length);
        main.Long(330, SecondDirectory);
        main.Bytes(50706, 1, 4, 0, 0);
        _ = main.Close();
        TiffDirectoryWriter sub = new(file, SecondDirectory, 0);
        sub.Long(513, secondAt);
        sub.Long(514, second.Length);
        _ = sub.Close();
        first.CopyTo(file, FirstAt);
        second.CopyTo(file, secondAt);
        return file;
    }
}
