using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

public sealed class DngMosaicReaderTests
{
    public static TheoryData<int, bool, bool> EveryStorage()
    {
        var cases = new TheoryData<int, bool, bool>();
        for (int bits = 8; bits <= 16; bits++)
        {
            foreach (bool isBigEndian in new[] { false, true })
            {
                cases.Add(bits, isBigEndian, false);
                cases.Add(bits, isBigEndian, true);
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(EveryStorage))]
    public void ReadRows_Strips_GivesWhatWasWritten(int bits, bool isBigEndian, bool isBehindPreview)
    {
        // 37 columns end on no whole byte for any packed depth; 5 rows a strip leave a short last strip.
        TestDng dng = TestDng.Random(37, 23, bits) with { IsBigEndian = isBigEndian, IsBehindPreview = isBehindPreview, RowsPerStrip = 5 };

        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng));
        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng, rowsAtOnce: 7));
    }

    [Theory]
    [MemberData(nameof(EveryStorage))]
    public void ReadRows_Tiles_GivesWhatWasWritten(int bits, bool isBigEndian, bool isBehindPreview)
    {
        TestDng dng = TestDng.Random(70, 41, bits) with { IsBigEndian = isBigEndian, IsBehindPreview = isBehindPreview, Tile = (32, 16) };

        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng));
        Assert.Equal(dng.Samples, Mosaics.ReadAll(dng, rowsAtOnce: 3));
    }

    [Theory]
    [InlineData(8, false, false)]
    [InlineData(8, true, true)]
    [InlineData(16, false, true)]
    [InlineData(16, true, false)]
    [InlineData(16, true, true)]
    public void ReadRows_WholeBytes_AgreesWithLibTiff(int bits, bool isBigEndian, bool isTiled)
    {
        TestDng dng = TestDng.Random(50, 34, bits) with
        {
            IsBigEndian = isBigEndian,
            IsBehindPreview = isTiled,
            RowsPerStrip = 8,
            Tile = isTiled ? (16, 16) : null,
        };
        using TemporaryFile file = dng.ToFile();
        using DngMosaicReader reader = DngMosaicReader.Open(file.Path);

        Assert.Equal(TiffOracle.ReadAll(file.Path, dng.Width, dng.Height), Mosaics.ReadAll(reader));
    }

    [Theory]
    [InlineData("RGGB")]
    [InlineData("BGGR")]
    [InlineData("GRBG")]
    [InlineData("GBRG")]
    [InlineData("monochrome")]
    public void Frame_EveryFilterOrder_IsNamedFromTheActiveArea(string filters)
    {
        TestDng dng = TestDng.Random(20, 12, 14) with { Filters = filters, Raw = raw => raw.Longs(50829, 3, 5, 11, 19) };

        MosaicLayout layout = Mosaics.FrameOf(dng).Layout;

        Assert.Equal(filters, layout.ColourFilterArray.Name);
        Assert.Equal(new PixelRectangle(5, 3, 14, 8), layout.ActiveArea);
        Assert.Equal((20, 12, 14), (layout.WidthPixels, layout.HeightPixels, layout.BitDepth));
    }

    [Fact]
    public void Frame_MaskedAreas_CountFromTheStoredTopLeft()
    {
        TestDng dng = TestDng.Random(20, 12, 14) with { Raw = raw => raw.Longs(50830, 0, 0, 12, 4, 0, 4, 2, 20) };

        Assert.Equal([new PixelRectangle(0, 0, 4, 12), new PixelRectangle(4, 0, 16, 2)], Mosaics.FrameOf(dng).Layout.MaskedAreas);
    }

    [Fact]
    public void Frame_WithoutActiveArea_IsActiveWhole() =>
        Assert.Equal(new PixelRectangle(0, 0, 20, 12), Mosaics.FrameOf(TestDng.Random(20, 12, 14)).Layout.ActiveArea);

    [Fact]
    public void Frame_Metadata_ComesFromTheDirectories()
    {
        TestDng dng = TestDng.Random(8, 8, 16) with
        {
            IsBehindPreview = true,
            Raw = raw => raw.Longs(50717, 16383),
            Exif = exif => exif
                .Rationals(33437, (56, 10)).Text(36867, "2026:03:02 10:00:02").Text(37521, "25").Text(36881, "+02:00")
                .Shorts(37383, 3).SignedRationals(37380, (-1, 3)).Shorts(41987, 1).Text(42036, "50 mm"),
        };

        FrameMetadata metadata = Mosaics.FrameOf(dng).Metadata;

        Assert.Equal(400, metadata.Iso);
        Assert.Equal(1 / 125.0, metadata.ExposureSeconds);
        Assert.Equal(5.6, metadata.ApertureFNumber);
        Assert.Equal(("Larkmoor", "LM-2", "20417", "1.1"), (metadata.Maker, metadata.Model, metadata.SerialNumber, metadata.Firmware));
        Assert.False(metadata.FirmwareIsConverter);
        Assert.Equal(new DateTimeOffset(2026, 3, 2, 10, 0, 2, 250, TimeSpan.FromHours(2)), metadata.CaptureTime);
        Assert.Equal(MeteringMode.Spot, metadata.Metering);
        Assert.Equal(-1 / 3.0, metadata.ExposureCompensationEv);
        Assert.Equal(("manual", "50 mm"), (metadata.WhiteBalance, metadata.Lens));
        Assert.Equal(new RecordingMode(BitDepth: 14, Compression: "uncompressed"), metadata.Mode);
    }

    [Fact]
    public void Frame_ConvertedFile_SaysThatItsFirmwareIsAConverter()
    {
        TestDng dng = TestDng.Random(8, 8, 16) with { First = first => first.Text(305, "Rawmill 3").Text(50827, "P0001.LMR") };

        Assert.True(Mosaics.FrameOf(dng).Metadata.FirmwareIsConverter);
    }

    [Fact]
    public void ReadRows_MoreRowsThanAreLeft_Throws()
    {
        using TemporaryFile file = TestDng.Random(8, 8, 16).ToFile();
        using DngMosaicReader reader = DngMosaicReader.Open(file.Path);
        reader.ReadRows(new ushort[8 * 6]);

        Assert.Throws<ArgumentException>(() => reader.ReadRows(new ushort[8 * 3]));
        Assert.Throws<ArgumentException>(() => reader.ReadRows(new ushort[7]));
    }

    [Fact]
    public void Open_TwoRawImages_TakesTheLarger()
    {
        // The first directory claims to be a main raw image too, of 16 × 8 photosites.
        TestDng dng = TestDng.Random(40, 30, 16) with
        {
            IsBehindPreview = true,
            First = first => first.Longs(254, 0).Shorts(262, 34892).Shorts(258, 8).Shorts(277, 1),
        };

        Assert.Equal(40, Mosaics.FrameOf(dng).Layout.WidthPixels);
    }

    [Fact]
    public void ReadRows_HundredMegapixels_NeedsNoMemoryBesideTheBand()
    {
        // Directories, entries and values; the band is the caller's.
        const long MostAllocatedBytes = 256 << 10;
        const int Side = 10_000;
        byte[] bytes = (TestDng.Random(16, 16, 16) with
        {
            Raw = raw => raw.Longs(256, Side).Longs(257, Side).Longs(278, Side).Longs(279, 2L * Side * Side),
        }).ToBytes();
        using var file = new TemporaryFile(bytes);
        using (FileStream stream = File.OpenWrite(file.Path))
        {
            // The rest of the frame is a hole, which takes no room on the disk.
            stream.SetLength((2L * Side * Side) + bytes.Length);
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        using DngMosaicReader reader = DngMosaicReader.Open(file.Path);
        var band = new ushort[reader.PreferredRows * Side];
        for (int row = 0; row < Side; row += reader.PreferredRows)
        {
            reader.ReadRows(band.AsSpan(0, Math.Min(reader.PreferredRows, Side - row) * Side));
        }

        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before - (2L * band.Length) < MostAllocatedBytes);
        Assert.True(2L * band.Length <= 2 << 20);
    }
}
