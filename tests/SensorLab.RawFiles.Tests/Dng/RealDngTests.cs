using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

/// <summary>Files of other writers; the values are the files' own.</summary>
public sealed class RealDngTests
{
    [Fact]
    public void Open_PackedFourteenBits_DecodesEveryBit()
    {
        // Where its one strip starts, as its own directory says.
        const int StripOffset = 1536;
        string path = SharedData.PathOf("real-data", "raw", "dng", "colorchart.dng");
        using DngMosaicReader reader = DngMosaicReader.Open(path);
        MosaicLayout layout = reader.Frame.Layout;

        Assert.Equal((1888, 1182, 14), (layout.WidthPixels, layout.HeightPixels, layout.BitDepth));
        Assert.Equal(new PixelRectangle(152, 26, 1734, 1156), layout.ActiveArea);
        Assert.Equal("RGGB", layout.ColourFilterArray.Name);
        Assert.Equal(15000, reader.Frame.Declared.WhiteDn);
        Assert.All(reader.Frame.Declared.BlackDn.Values, black => Assert.Equal(2056, black));
        Assert.Null(reader.Frame.Metadata.Iso);
        Assert.Null(reader.Frame.Metadata.ExposureSeconds);
        Assert.Equal(new RecordingMode(BitDepth: 14, Compression: "uncompressed"), reader.Frame.Metadata.Mode);

        var bits = new System.Collections.BitArray([.. File.ReadAllBytes(path).Skip(StripOffset).Take(1888 * 14 / 8 * 1182)]);
        var expected = new ushort[1888 * 1182];
        for (int bit = 0; bit < bits.Length; bit++)
        {
            // BitArray counts a byte's bits from the lowest.
            int one = bits[(bit & ~7) + 7 - (bit & 7)] ? 1 : 0;
            expected[bit / 14] = (ushort)((expected[bit / 14] << 1) | one);
        }

        Assert.Equal(expected, Mosaics.ReadAll(reader));
    }

    [Fact]
    public void Open_LossyThreeSamples_IsRefusedAsUnsuitable()
    {
        UnsupportedFileException refusal = Assert.Throws<UnsupportedFileException>(
            () => DngMosaicReader.Open(SharedData.PathOf("real-data", "raw", "dng", "sample_1mp.dng")));

        Assert.True(refusal.IsUnsuitable);
        Assert.Contains("lossy", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("clean", 14)]
    [InlineData("coarse", 12)]
    [InlineData("pulsed", 14)]
    public void Open_SetsOfAnotherSimulator_AllDecode(string set, int bitDepth)
    {
        string[] frames = Directory.GetFiles(SharedData.PathOf("foreign-sets", set), "*.dng", SearchOption.AllDirectories);
        Assert.NotEmpty(frames);
        foreach (string path in frames)
        {
            using DngMosaicReader reader = DngMosaicReader.Open(path);
            FrameMetadata metadata = reader.Frame.Metadata;

            Assert.Equal(TiffOracle.ReadAll(path, 320, 240), Mosaics.ReadAll(reader));
            Assert.Equal(bitDepth, metadata.Mode.BitDepth);
            Assert.True(metadata is { Iso: > 0, ExposureSeconds: > 0, SerialNumber: "31008", CaptureTime: not null }, path);
        }
    }

    [Fact]
    public void Open_LaboratoryFrames_AreMonochromeAndAgreeWithLibTiff()
    {
        string path = SharedData.PathOf("real-data", "flats-ccd", "bracket", "F003.dng");
        using DngMosaicReader reader = DngMosaicReader.Open(path);

        Assert.True(reader.Frame.Layout.ColourFilterArray.IsMonochrome);
        Assert.Equal(TiffOracle.ReadAll(path, 656, 494), Mosaics.ReadAll(reader));
    }
}
