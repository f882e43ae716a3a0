using System.Text.Json;
using SensorLab.Frames;
using SensorLab.RawFiles.Previews;
using SensorLab.RawFiles.Tests.Support;
using SensorLab.Simulation.Writing;

namespace SensorLab.RawFiles.Tests.Dng;

/// <summary>Small DNG files cut at every byte: each is named as damaged, or what is left says and shows all that the whole one does.</summary>
public sealed class CutDngTests
{
    /// <summary>The four bytes behind the last directory, and one that fills a word up: all that a file can lose unharmed.</summary>
    private const int MostUnharmedCuts = 5;

    private const int Width = 16;
    private const int Height = 16;
    private const int FirstDirectoryPointer = 4;

    private static readonly Dictionary<string, Func<byte[]>> Files = new()
    {
        ["one strip"] = () => Written(new DngOptions()),
        ["packed strips, big-endian"] = () => Written(new DngOptions { BitsPerSample = 14, RowsPerStrip = 5, IsBigEndian = true }),
        ["tiles behind a preview"] = () => Written(new DngOptions { Tile = (16, 16), IsBehindPreview = true }),
        ["deflated strips"] = () => Written(new DngOptions { Compression = DngCompression.Deflate, RowsPerStrip = 6 }),
        ["lossless tiles"] = () => Written(new DngOptions { Compression = DngCompression.Lossless, Tile = (16, 16) }),
        ["companded"] = () => Written(new DngOptions { BitsPerSample = 8, LinearisationTable = [.. Enumerable.Range(0, 256).Select(code => (ushort)(code * code / 16))] }, bits: 8),
        ["directories first, pixels last"] = () => PixelsLast(Written(new DngOptions())),
        ["directories first, a preview last"] = () => PreviewLast(TestDng.Random(Width, Height, 12).ToBytes()),
    };

    public static TheoryData<string> FileNames() => [.. Files.Keys];

    [Theory]
    [MemberData(nameof(FileNames))]
    public void Read_CutAtEveryByte_IsDamagedOrSaysAndShowsAll(string name)
    {
        byte[] whole = Files[name]();
        string all = Read(whole) ?? throw new InvalidOperationException($"{name} does not read.");
        int unharmed = 0;
        for (int length = 0; length < whole.Length; length++)
        {
            string? left = Read(whole[..length]);
            Assert.True(left is null || left == all, $"{name}, cut to {length} of {whole.Length} bytes, reads as another frame.");
            unharmed += left is null ? 0 : 1;
        }

        Assert.InRange(unharmed, 0, MostUnharmedCuts);
    }

    /// <summary>All that a file gives, as text; null where it is named as damaged.</summary>
    private static string? Read(byte[] bytes)
    {
        using var file = new TemporaryFile(bytes);
        try
        {
            using IMosaicReader reader = RawFileOpener.Open(file.Path);
            ushort[] codes = Mosaics.ReadAll(reader);
            return JsonSerializer.Serialize(reader.Frame) + string.Join(' ', codes) + Convert.ToHexString(PreviewExtractor.Extract(file.Path) ?? []);
        }
        catch (MalformedFileException)
        {
            return null;
        }
    }

    private static byte[] Written(DngOptions options, int bits = 14)
    {
        var random = new Random(4);
        ushort[] codes = [.. Enumerable.Range(0, Width * Height).Select(_ => (ushort)random.Next(1 << bits))];
        if (options.LinearisationTable is { } table)
        {
            codes = [.. codes.Select(code => table[code])];
        }

        var frame = new RawFrame
        {
            Metadata = new FrameMetadata { Iso = 200, ExposureSeconds = 0.01, ApertureFNumber = 8, Maker = "Larkmoor", Model = "LM-2", SerialNumber = "20417", Firmware = "1.1", Mode = new RecordingMode(bits) },
            Layout = new MosaicLayout
            {
                WidthPixels = Width,
                HeightPixels = Height,
                ActiveArea = new PixelRectangle(4, 0, Width - 4, Height),
                MaskedAreas = [new PixelRectangle(0, 0, 4, Height)],
                ColourFilterArray = ColourFilterArray.FromName("RGGB") ?? ColourFilterArray.Monochrome,
                BitDepth = bits,
            },
            Declared = new DeclaredLevels { BlackDn = new Dictionary<SensorChannel, double> { [SensorChannel.R] = 500, [SensorChannel.G1] = 501, [SensorChannel.G2] = 502, [SensorChannel.B] = 503 }, WhiteDn = 16000 },
        };
        return DngWriter.Encode(frame, codes, options);
    }

    // The pixels copied behind all else, and the strip's place told anew: as bodies write that know their directories beforehand.
    private static byte[] PixelsLast(byte[] dng)
    {
        int entry = EntryOf(dng, 273);
        int at = BitConverter.ToInt32(dng, entry + 8);
        byte[] moved = [.. dng, .. dng.AsSpan(at, 2 * Width * Height)];
        moved.AsSpan(at, 2 * Width * Height).Clear();
        BitConverter.GetBytes(dng.Length).CopyTo(moved, entry + 8);
        return moved;
    }

    // A second directory in the chain, whose JPEG ends the file.
    private static byte[] PreviewLast(byte[] dng)
    {
        byte[] jpeg = [0xFF, 0xD8, 0xFF, 0xC0, 0, 17, 8, 0, 8, 0, 8, 3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0, .. Enumerable.Repeat((byte)0x55, 40), 0xFF, 0xD9];
        var directory = new TestDirectory(isBigEndian: false);
        byte[] even = [.. dng, .. new byte[dng.Length % 2]];
        byte[] Chained(long jpegAt) => directory.Longs(254, 1).Longs(256, 8).Longs(257, 8).Shorts(258, 8, 8, 8).Shorts(259, 7).Shorts(262, 6).Shorts(277, 3)
            .Longs(273, jpegAt).Longs(278, 8).Longs(279, jpeg.Length).ToBytes(even.Length);
        int length = Chained(0).Length;
        byte[] file = [.. even, .. Chained(even.Length + length), .. jpeg];
        int first = BitConverter.ToInt32(file, FirstDirectoryPointer);
        int next = first + 2 + (12 * BitConverter.ToUInt16(file, first));
        BitConverter.GetBytes(even.Length).CopyTo(file, next);
        return file;
    }

    private static int EntryOf(byte[] dng, int tag)
    {
        int first = BitConverter.ToInt32(dng, FirstDirectoryPointer);
        return Enumerable.Range(0, BitConverter.ToUInt16(dng, first)).Select(i => first + 2 + (12 * i)).First(at => BitConverter.ToUInt16(dng, at) == tag);
    }
}
