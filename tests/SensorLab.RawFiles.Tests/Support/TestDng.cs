namespace SensorLab.RawFiles.Tests.Support;

/// <summary>Codes one strip or tile: samples row by row, its width and height.</summary>
internal delegate byte[] SegmentCoder(ushort[] samples, int width, int height);

/// <summary>A DNG to be written by the tests.</summary>
internal sealed record TestDng
{
    public const int DngVersion = 50706;

    public required int Width { get; init; }

    public required int Height { get; init; }

    public required ushort[] Samples { get; init; }

    public int Bits { get; init; } = 16;

    public bool IsBigEndian { get; init; }

    public bool IsBehindPreview { get; init; }

    public string Filters { get; init; } = "RGGB";

    public int RowsPerStrip { get; init; } = int.MaxValue;

    public (int Width, int Height)? Tile { get; init; }

    public int Compression { get; init; } = 1;

    public SegmentCoder? Coder { get; init; }

    /// <summary>Last changes to the raw image's directory.</summary>
    public Action<TestDirectory>? Raw { get; init; }

    /// <summary>Last changes to the first directory.</summary>
    public Action<TestDirectory>? First { get; init; }

    /// <summary>Last changes to Exif's directory.</summary>
    public Action<TestDirectory>? Exif { get; init; }

    public static TestDng Random(int width, int height, int bits, int seed = 1)
    {
        var random = new Random(seed);
        var samples = new ushort[width * height];
        for (int i = 0; i < samples.Length; i++)
        {
            samples[i] = (ushort)random.Next(1 << bits);
        }

        return new TestDng { Width = width, Height = height, Samples = samples, Bits = bits };
    }

    public TemporaryFile ToFile() => new(ToBytes());

    public byte[] ToBytes()
    {
        var file = new MemoryStream();
        file.Write(new byte[8]);
        TestDirectory raw = RawDirectory(file);
        TestDirectory first = IsBehindPreview ? PreviewDirectory(file) : raw;
        AddIdentity(first);
        TestDirectory exif = Place(new TestDirectory(IsBigEndian).Rationals(33434, (1, 125)).Shorts(34855, 400), Exif);
        first.Longs(34665, Append(file, exif));
        if (IsBehindPreview)
        {
            first.Longs(330, Append(file, Place(raw, Raw)));
        }
        else
        {
            Raw?.Invoke(raw);
        }

        long start = Append(file, Place(first, First));
        byte[] bytes = file.ToArray();
        byte[] order = IsBigEndian ? [.. "MM"u8] : [.. "II"u8];
        byte[] header = [.. order, .. first.Bytes16(42), .. first.Bytes32(start)];
        header.CopyTo(bytes, 0);
        return bytes;
    }

    private static TestDirectory Place(TestDirectory directory, Action<TestDirectory>? change)
    {
        change?.Invoke(directory);
        return directory;
    }

    private static long Append(MemoryStream file, TestDirectory directory)
    {
        file.Write(new byte[file.Length % 2]);
        long offset = file.Length;
        file.Write(directory.ToBytes(offset));
        return offset;
    }

    private static void AddIdentity(TestDirectory first) => first
        .Text(271, "Larkmoor").Text(272, "LM-2").Text(305, "1.1").Text(306, "2026:03:02 10:00:01")
        .Bytes(DngVersion, 1, 4, 0, 0).Text(50735, "20417");

    private TestDirectory PreviewDirectory(MemoryStream file)
    {
        long at = file.Length;
        file.Write(new byte[3 * 16 * 8]);
        return new TestDirectory(IsBigEndian)
            .Longs(254, 1).Longs(256, 16).Longs(257, 8).Shorts(258, 8, 8, 8).Shorts(259, 1).Shorts(262, 2).Shorts(277, 3)
            .Longs(273, at).Longs(278, 8).Longs(279, 3 * 16 * 8);
    }

    private TestDirectory RawDirectory(MemoryStream file)
    {
        (int segmentWidth, int segmentHeight) = Tile ?? (Width, Math.Min(RowsPerStrip, Height));
        var offsets = new List<long>();
        var byteCounts = new List<long>();
        for (int top = 0; top < Height; top += segmentHeight)
        {
            for (int left = 0; left < Width; left += segmentWidth)
            {
                int rows = Tile is null ? Math.Min(segmentHeight, Height - top) : segmentHeight;
                byte[] bytes = (Coder ?? Pack)(Cut(left, top, segmentWidth, rows), segmentWidth, rows);
                offsets.Add(file.Length);
                byteCounts.Add(bytes.Length);
                file.Write(bytes);
            }
        }

        TestDirectory directory = new TestDirectory(IsBigEndian)
            .Longs(254, 0).Longs(256, Width).Longs(257, Height).Shorts(258, Bits).Shorts(259, Compression)
            .Shorts(262, Filters == "monochrome" ? 34892 : 32803).Shorts(277, 1);
        if (Filters != "monochrome")
        {
            directory.Shorts(33421, 2, 2).Bytes(33422, [.. Filters.Select(letter => (byte)"RGB".IndexOf(letter, StringComparison.Ordinal))]);
        }

        return Tile is null
            ? directory.Longs(273, [.. offsets]).Longs(278, segmentHeight).Longs(279, [.. byteCounts])
            : directory.Longs(322, segmentWidth).Longs(323, segmentHeight).Longs(324, [.. offsets]).Longs(325, [.. byteCounts]);
    }

    /// <summary>A segment's samples; beyond the image's edge a tile repeats the last ones.</summary>
    private ushort[] Cut(int left, int top, int width, int height)
    {
        var samples = new ushort[width * height];
        for (int i = 0; i < samples.Length; i++)
        {
            int row = Math.Min(top + (i / width), Height - 1);
            samples[i] = Samples[(row * Width) + Math.Min(left + (i % width), Width - 1)];
        }

        return samples;
    }

    /// <summary>Uncompressed rows, bit by bit where samples are packed.</summary>
    public byte[] Pack(ushort[] samples, int width, int height)
    {
        int rowBytes = ((width * Bits) + 7) / 8;
        var bytes = new byte[rowBytes * height];
        for (int i = 0; i < samples.Length; i++)
        {
            int row = i / width * rowBytes;
            if (Bits == 16)
            {
                int low = IsBigEndian ? 1 : 0;
                bytes[row + (2 * (i % width)) + low] = (byte)samples[i];
                bytes[row + (2 * (i % width)) + 1 - low] = (byte)(samples[i] >> 8);
                continue;
            }

            for (int bit = 0; bit < Bits; bit++)
            {
                int at = (i % width * Bits) + bit;
                bytes[row + (at / 8)] |= (byte)((samples[i] >> (Bits - 1 - bit) & 1) << (7 - (at % 8)));
            }
        }

        return bytes;
    }
}
