using System.Diagnostics;
using CsCheck;
using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

public sealed class DngHostileTests
{
    /// <summary>Allocations of opening a small file, a window for each of a few readers included.</summary>
    private const long MostAllocatedBytes = 4 << 20;

    /// <summary>Generous on a busy machine; what is guarded against are hangs.</summary>
    private const double MostSeconds = 10;

    private static readonly Dictionary<string, Action<TestDirectory>> Lies = new()
    {
        ["no width"] = raw => raw.Longs(256, 0),
        ["huge width"] = raw => raw.Longs(256, uint.MaxValue),
        ["huge height"] = raw => raw.Longs(257, uint.MaxValue),
        ["larger than the file"] = raw => raw.Longs(256, 100_000).Longs(257, 100_000),
        ["no strips"] = raw => raw.Without(273),
        ["too few strips"] = raw => raw.Longs(278, 1),
        ["strips of no rows"] = raw => raw.Longs(278, 0),
        ["strip outside"] = raw => raw.Longs(273, 1 << 30),
        ["strip past the end"] = raw => raw.Longs(279, 1 << 30),
        ["short strip"] = raw => raw.Longs(279, 10),
        ["claimed count of strips"] = raw => raw.Raw(273, 4, uint.MaxValue, 8),
        ["claimed count of table"] = raw => raw.Raw(50712, 3, uint.MaxValue, 8),
        ["claimed count of masks"] = raw => raw.Raw(50830, 4, 0x40000000, 8),
        ["claimed count of black"] = raw => raw.Raw(50714, 12, 0x7FFFFFFF, 8),
        ["empty table"] = raw => raw.Raw(50712, 3, 0, 0),
        ["active area outside"] = raw => raw.Longs(50829, 0, 0, 999, 16),
        ["active area inside out"] = raw => raw.Longs(50829, 10, 0, 2, 16),
        ["active area empty"] = raw => raw.Longs(50829, 4, 4, 4, 4),
        ["mask outside"] = raw => raw.Longs(50830, 0, 0, 1, uint.MaxValue),
        ["half a mask"] = raw => raw.Longs(50830, 0, 0),
        ["black pattern of no size"] = raw => raw.Shorts(50713, 0, 2).Longs(50714, 1),
        ["black pattern too large"] = raw => raw.Shorts(50713, 60000, 60000).Longs(50714, 1),
        ["tiles of no width"] = raw => raw.Longs(322, 0).Longs(323, 16).Longs(324, 8).Longs(325, 8),
        ["huge tiles"] = raw => raw.Longs(322, 1 << 17).Longs(323, 1 << 17).Longs(324, 8).Longs(325, 8),
        ["tiny tiles"] = raw => raw.Longs(322, 1).Longs(323, 1).Longs(324, 8).Longs(325, 8),
        ["negative bits"] = raw => raw.SignedRationals(258, (-16, 1)),
        ["no JPEG"] = raw => raw.Shorts(259, 7),
        ["no deflated data"] = raw => raw.Shorts(259, 8),
        ["predictor of packed bits"] = raw => raw.Shorts(259, 8).Shorts(317, 2).Shorts(258, 12),
    };

    public static TheoryData<string> LieNames() => [.. Lies.Keys];

    [Theory]
    [MemberData(nameof(LieNames))]
    public void Read_DirectoryThatLies_IsDamageInLittleMemory(string lie)
    {
        using TemporaryFile file = (TestDng.Random(16, 12, 16) with { Raw = Lies[lie] }).ToFile();
        long before = GC.GetAllocatedBytesForCurrentThread();

        Assert.Throws<MalformedFileException>(() => ReadBand(file.Path));

        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < MostAllocatedBytes, lie);
    }

    [Fact]
    public void Open_DirectoryThatFollowsItself_IsDamage()
    {
        byte[] bytes = TestDng.Random(16, 12, 16).ToBytes();
        int start = BitConverter.ToInt32(bytes, 4);
        int next = start + 2 + (12 * BitConverter.ToUInt16(bytes, start));
        BitConverter.GetBytes(start).CopyTo(bytes, next);
        using var file = new TemporaryFile(bytes);

        Assert.Contains("twice", Assert.Throws<MalformedFileException>(() => ReadBand(file.Path)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_SubdirectoryThatIsItsParent_IsDamage()
    {
        byte[] bytes = (TestDng.Random(16, 12, 16) with { First = first => first.Longs(330, 0x7E57) }).ToBytes();
        int at = bytes.AsSpan().IndexOf(BitConverter.GetBytes(0x7E57));
        bytes.AsSpan(4, 4).CopyTo(bytes.AsSpan(at));
        using var file = new TemporaryFile(bytes);

        Assert.Contains("twice", Assert.Throws<MalformedFileException>(() => ReadBand(file.Path)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_TilesThatAllLieOnOneAnother_HoldNoMorePixelsThanTheFile()
    {
        // 64 × 64 tiles of 16 × 16 photosites at one place of a small file.
        long[] places = [.. Enumerable.Repeat(8L, 4096)];
        TestDng dng = TestDng.Random(16, 16, 16) with
        {
            Raw = raw => raw.Longs(256, 1024).Longs(257, 1024).Longs(322, 16).Longs(323, 16)
                .Longs(324, places).Longs(325, [.. places.Select(_ => 512L)]),
        };

        Assert.Throws<MalformedFileException>(() => Mosaics.FrameOf(dng));
    }

    [Theory]
    [InlineData(7, 100_000)]
    [InlineData(8, 100_000)]
    [InlineData(7, 1000)]
    public void Open_ManyTilesSideBySide_NeedNoMoreMemoryThanTheFileJustifies(int compression, int across)
    {
        // Each tile would have a decoder with a window of its own: hundreds of kilobytes for the sixteen bytes that name it.
        long[] places = [.. Enumerable.Repeat(8L, across)];
        byte[] image = new LosslessJpegEncoder { Precision = 14 }.Encode(new ushort[4096], 64, 64);
        TestDng dng = TestDng.Random(16, 1, 16) with
        {
            Compression = compression,
            Coder = (_, _, _) => image,
            Raw = raw => raw.Longs(256, across).Longs(322, 1).Longs(323, 1).Longs(324, places).Longs(325, [.. places.Select(_ => (long)image.Length)]),
        };
        using TemporaryFile file = dng.ToFile();
        long before = GC.GetAllocatedBytesForCurrentThread();

        Assert.Throws<MalformedFileException>(() => ReadBand(file.Path));

        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < MostAllocatedBytes);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Read_TruncatedAtTwoHundredPlaces_EndsInANamedErrorOrInAllPixels(bool isTiled)
    {
        byte[] good = (TestDng.Random(48, 40, 14) with { IsBehindPreview = true, Tile = isTiled ? (16, 16) : null }).ToBytes();
        using var whole = new TemporaryFile(good);
        ushort[] pixels = ReadAll(whole.Path);
        int errors = 0;
        for (int i = 0; i < 200; i++)
        {
            using var file = new TemporaryFile(good[..(good.Length * i / 200)]);

            // Cut behind the pixels, a file lacks metadata alone: they are then unknown, and the pixels whole.
            if (Record.Exception(() => Assert.Equal(pixels, ReadAll(file.Path))) is { } error)
            {
                Assert.IsType<MalformedFileException>(error);
                errors++;
            }
        }

        Assert.InRange(errors, 150, 200);
    }

    [Fact]
    public void Read_AnyByteChanged_EndsInANamedErrorOrDecodes()
    {
        byte[] good = (TestDng.Random(24, 20, 12) with { IsBehindPreview = true }).ToBytes();
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte).Array[1, 8].Sample(
            changes =>
            {
                byte[] bytes = [.. good];
                foreach ((int at, byte value) in changes)
                {
                    bytes[at] = value;
                }

                using var file = new TemporaryFile(bytes);
                return EndsInNamedError(file.Path);
            },
            iter: 2000);
    }

    [Fact]
    public void Read_DamagedRealFiles_EndInANamedErrorOrDecodeWithinTheFile()
    {
        foreach (string path in Directory.EnumerateFiles(SharedData.PathOf("real-data", "damaged"), "*", SearchOption.AllDirectories))
        {
            var watch = Stopwatch.StartNew();

            Assert.True(EndsInNamedError(path), path);

            Assert.True(watch.Elapsed.TotalSeconds < MostSeconds, path);
        }
    }

    /// <summary>True where the file is refused or decodes; what it decodes must fit in it.</summary>
    private static bool EndsInNamedError(string path)
    {
        try
        {
            using DngMosaicReader reader = DngMosaicReader.Open(path);
            MosaicLayout layout = reader.Frame.Layout;
            Assert.True(layout.WidthPixels * (long)layout.HeightPixels <= 8 * new FileInfo(path).Length);
            Mosaics.ReadAll(reader);
            return true;
        }
        catch (Exception exception) when (exception is MalformedFileException or UnsupportedFileException)
        {
            return true;
        }
    }

    private static void ReadBand(string path) => ReadAll(path);

    private static ushort[] ReadAll(string path)
    {
        using DngMosaicReader reader = DngMosaicReader.Open(path);
        return Mosaics.ReadAll(reader);
    }
}
