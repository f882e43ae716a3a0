using System.IO.Compression;
using BitMiracle.LibTiff.Classic;
using SensorLab.Frames;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Tests.Writing;

public sealed class DngWriterTests
{
    private static readonly VirtualBody Body = new() { WidthPixels = 50, HeightPixels = 38, MaskedLeftPixels = 6, MaskedTopPixels = 4 };

    [Theory]
    [InlineData(16, false)]
    [InlineData(16, true)]
    [InlineData(14, false)]
    [InlineData(14, true)]
    public void Encode_OneStrip_HoldsTheSamples(int bits, bool isBigEndian)
    {
        (RawFrame frame, ushort[] codes) = Frame(Body);
        var dng = new MinimalDng(DngWriter.Encode(frame, codes, new DngOptions { BitsPerSample = bits, IsBigEndian = isBigEndian }));
        Assert.Equal(codes, dng.Unpack(Assert.Single(dng.Blocks()), 56));
    }

    [Fact]
    public void Encode_TwelveBitsPacked_HoldsTheSamples()
    {
        VirtualBody body = Body with { BitDepth = 12, BlackLevelDn = 100.25, WidthPixels = 33 };
        (RawFrame frame, ushort[] codes) = Frame(body);
        var dng = new MinimalDng(DngWriter.Encode(frame, codes, new DngOptions { BitsPerSample = 12, RowsPerStrip = 10 }));
        Assert.Equal(5, dng.Blocks().Count);
        Assert.Equal(codes, dng.Blocks().SelectMany(block => dng.Unpack(block, 39)));
    }

    [Theory]
    [InlineData(DngCompression.None)]
    [InlineData(DngCompression.Deflate)]
    public void Encode_Tiles_HoldTheSamplesAndRepeatTheEdge(DngCompression compression)
    {
        (RawFrame frame, ushort[] codes) = Frame(Body);
        var dng = new MinimalDng(DngWriter.Encode(frame, codes, new DngOptions { Tile = (32, 16), Compression = compression }));
        Assert.Equal(compression == DngCompression.None ? 1 : 8, dng.Raw[259][0]);
        IReadOnlyList<byte[]> blocks = dng.Blocks();
        Assert.Equal(2 * 3, blocks.Count);
        for (int row = 0; row < 48; row++)
        {
            for (int column = 0; column < 64; column++)
            {
                byte[] block = blocks[(row / 16 * 2) + (column / 32)];
                ushort[] tile = dng.Unpack(compression == DngCompression.None ? block : Inflate(block), 32);
                ushort expected = codes[(Math.Min(row, 41) * 56) + Math.Min(column, 55)];
                Assert.Equal(expected, tile[(row % 16 * 32) + (column % 32)]);
            }
        }
    }

    [Fact]
    public void Encode_Metadata_SaysWhatTheFrameSays()
    {
        (RawFrame frame, ushort[] codes) = Frame(Body);
        var dng = new MinimalDng(DngWriter.Encode(frame, codes, new DngOptions()));
        Assert.Equal("Larkmoor", MinimalDng.Text(dng.First[271]));
        Assert.Equal("LM-2", MinimalDng.Text(dng.First[272]));
        Assert.Equal("1.1", MinimalDng.Text(dng.First[305]));
        Assert.Equal("Larkmoor LM-2", MinimalDng.Text(dng.First[50708]));
        Assert.Equal("20417", MinimalDng.Text(dng.First[50735]));
        Assert.Equal("20417", MinimalDng.Text(dng.Exif[42033]));
        Assert.Equal([100], dng.Exif[34855]);
        Assert.Equal(frame.Metadata.ExposureSeconds!.Value, dng.Exif[33434][0], 1e-8);
        Assert.Equal([5.6], dng.Exif[33437]);
        Assert.Equal([3], dng.Exif[37383]);
        Assert.Equal("2026:04:18 09:00:00", MinimalDng.Text(dng.Exif[36867]));
        Assert.Equal("+00:00", MinimalDng.Text(dng.Exif[36881]));
        Assert.Equal([32803], dng.Raw[262]);
        Assert.Equal([0, 1, 1, 2], dng.Raw[33422]);
        Assert.Equal([512.25, 512.25, 512.25, 512.25], dng.Raw[50714]);
        Assert.Equal([15_897], dng.Raw[50717]);
        Assert.Equal([4, 6, 42, 56], dng.Raw[50829]);
        Assert.Equal([4, 0, 42, 6, 0, 0, 4, 56], dng.Raw[50830]);
        Assert.Equal([1, 4, 0, 0], dng.First[50706]);
    }

    [Fact]
    public void Encode_Monochrome_IsLinearRawOfOneSample()
    {
        VirtualBody body = Body with { ColourFilterArray = "monochrome" };
        (RawFrame frame, ushort[] codes) = Frame(body);
        var dng = new MinimalDng(DngWriter.Encode(frame, codes, new DngOptions()));
        Assert.Equal([34892], dng.Raw[262]);
        Assert.Equal([1], dng.Raw[277]);
        Assert.False(dng.Raw.ContainsKey(33422));
        Assert.Equal([512.25], dng.Raw[50714]);
    }

    [Fact]
    public void Encode_BehindPreview_HasTheMosaicInASubDirectory()
    {
        (RawFrame frame, ushort[] codes) = Frame(Body);
        var dng = new MinimalDng(DngWriter.Encode(frame, codes, new DngOptions { IsBehindPreview = true }));
        Assert.Equal([1], dng.First[254]);
        Assert.Equal([8, 8, 8], dng.First[258]);
        Assert.Equal([0], dng.Raw[254]);
        Assert.Equal(codes, dng.Unpack(Assert.Single(dng.Blocks()), 56));
    }

    [Fact]
    public void Encode_UnsaidMetadata_IsLeftOut()
    {
        (RawFrame frame, ushort[] codes) = Frame(Body);
        RawFrame silent = frame with { Metadata = new FrameMetadata(), Declared = new DeclaredLevels() };
        var dng = new MinimalDng(DngWriter.Encode(silent, codes, new DngOptions()));
        Assert.False(dng.Exif.ContainsKey(33434));
        Assert.False(dng.Exif.ContainsKey(34855));
        Assert.False(dng.First.ContainsKey(271));
        Assert.False(dng.Raw.ContainsKey(50714));
    }

    [Fact]
    public void Write_AFile_IsReadByLibTiffAlike()
    {
        (RawFrame frame, ushort[] codes) = Frame(Body);
        string path = Path.Combine(Path.GetTempPath(), $"sensorlab-writer-{Guid.NewGuid():N}.dng");
        try
        {
            DngWriter.Write(path, frame, codes, new DngOptions { RowsPerStrip = 8 });
            using Tiff tiff = QuietLibTiff.Open(path);
            Assert.Equal(56, tiff.GetField(BitMiracle.LibTiff.Classic.TiffTag.IMAGEWIDTH)[0].ToInt());
            Assert.Equal(42, tiff.GetField(BitMiracle.LibTiff.Classic.TiffTag.IMAGELENGTH)[0].ToInt());
            var row = new byte[112];
            for (int y = 0; y < 42; y++)
            {
                Assert.True(tiff.ReadScanline(row, y));
                ushort[] samples = new ushort[56];
                Buffer.BlockCopy(row, 0, samples, 0, row.Length);
                Assert.Equal(codes[(y * 56)..((y + 1) * 56)], samples);
            }
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void Encode_OptionsThatDontFit_Throw()
    {
        (RawFrame frame, ushort[] codes) = Frame(Body);
        Assert.Throws<ArgumentException>(() => DngWriter.Encode(frame, codes, new DngOptions { BitsPerSample = 12 }));
        Assert.Throws<ArgumentException>(() => DngWriter.Encode(frame, codes, new DngOptions { Tile = (20, 16) }));
        Assert.Throws<ArgumentException>(() => DngWriter.Encode(frame, codes.AsSpan(1), new DngOptions()));
    }

    private static (RawFrame Frame, ushort[] Codes) Frame(VirtualBody body)
    {
        RehearsalPlan plan = RehearsalPlan.Of(new RehearsalOptions { Body = body, IsoValues = [100] });
        PlannedFrame planned = plan.Frames[0];
        return (planned.Raw, plan.Expose(plan.Frames[^20]));
    }

    private static byte[] Inflate(byte[] bytes)
    {
        using var zlib = new ZLibStream(new MemoryStream(bytes), CompressionMode.Decompress);
        using var target = new MemoryStream();
        zlib.CopyTo(target);
        return target.ToArray();
    }
}
