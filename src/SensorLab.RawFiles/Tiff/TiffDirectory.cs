using System.Buffers.Binary;
using System.Text;
using SensorLab.Frames;

namespace SensorLab.RawFiles.Tiff;

/// <summary>One image file directory. Values are read when asked for, and never more of them than the caller can use.</summary>
/// <remarks>TIFF 6.0, section 2.</remarks>
internal sealed class TiffDirectory
{
    private const int LongestTextBytes = 1024;

    private readonly RandomAccessFile _file;
    private readonly bool _isBigEndian;
    private readonly Dictionary<ushort, TiffEntry> _entries;

    /// <summary>Creates a directory of entries that were read.</summary>
    /// <param name="file">The file that holds the values.</param>
    /// <param name="isBigEndian">The file's byte order.</param>
    /// <param name="entries">The entries by tag.</param>
    public TiffDirectory(RandomAccessFile file, bool isBigEndian, Dictionary<ushort, TiffEntry> entries)
    {
        _file = file;
        _isBigEndian = isBigEndian;
        _entries = entries;
    }

    /// <summary>Whether the directory has an entry.</summary>
    /// <param name="tag">The entry's tag.</param>
    public bool Has(ushort tag) => _entries.ContainsKey(tag);

    /// <summary>How many values an entry claims, 0 where it is absent.</summary>
    /// <param name="tag">The entry's tag.</param>
    public uint CountOf(ushort tag) => _entries.TryGetValue(tag, out TiffEntry entry) ? entry.Count : 0;

    /// <summary>An entry's values as whole numbers.</summary>
    /// <param name="tag">The entry's tag.</param>
    /// <param name="most">The most values that make sense; the file's claim is checked against it before anything is allocated.</param>
    /// <returns>The values, empty where the entry is absent.</returns>
    /// <exception cref="MalformedFileException">More values than make sense, values outside the file, or no whole numbers of 0 or more.</exception>
    public uint[] Integers(ushort tag, long most)
    {
        double[] numbers = Numbers(tag, most);
        var integers = new uint[numbers.Length];
        for (int i = 0; i < numbers.Length; i++)
        {
            double number = numbers[i];
            integers[i] = number is >= 0 and <= uint.MaxValue && Math.Floor(number) == number
                ? (uint)number
                : throw new MalformedFileException($"Tag {tag} should hold whole numbers and holds {number}.");
        }

        return integers;
    }

    /// <summary>An entry's values as whole numbers, empty where they are absent or damaged.</summary>
    /// <param name="tag">The entry's tag.</param>
    /// <param name="most">The most values that make sense.</param>
    public uint[] SoundIntegers(ushort tag, long most)
    {
        try
        {
            return Integers(tag, most);
        }
        catch (MalformedFileException)
        {
            return [];
        }
    }

    /// <summary>An entry's first value as a whole number, null where the entry is absent or empty.</summary>
    /// <param name="tag">The entry's tag.</param>
    /// <exception cref="MalformedFileException">The value lies outside the file or is no whole number of 0 or more.</exception>
    public uint? Integer(ushort tag) => FirstOf(tag) switch
    {
        null => null,
        double number when number is >= 0 and <= uint.MaxValue && Math.Floor(number) == number => (uint)number,
        double number => throw new MalformedFileException($"Tag {tag} should hold a whole number and holds {number}."),
    };

    /// <summary>An entry's first value, null where the entry is absent, empty or a rational over zero.</summary>
    /// <param name="tag">The entry's tag.</param>
    /// <exception cref="MalformedFileException">The value lies outside the file.</exception>
    public double? Number(ushort tag) => FirstOf(tag) is double number && double.IsFinite(number) ? number : null;

    /// <summary>An entry's values as numbers; a rational over zero is not a number.</summary>
    /// <param name="tag">The entry's tag.</param>
    /// <param name="most">The most values that make sense.</param>
    /// <returns>The values, empty where the entry is absent.</returns>
    /// <exception cref="MalformedFileException">More values than make sense, or values outside the file.</exception>
    public double[] Numbers(ushort tag, long most)
    {
        if (!_entries.TryGetValue(tag, out TiffEntry entry))
        {
            return [];
        }

        if (entry.Count > most)
        {
            throw new MalformedFileException($"Tag {tag} claims {entry.Count} values where {most} are the most that make sense.");
        }

        return ReadNumbers(tag, entry, (int)entry.Count);
    }

    /// <summary>An entry's text without its padding, null where the entry is absent or blank.</summary>
    /// <param name="tag">The entry's tag.</param>
    /// <exception cref="MalformedFileException">The text lies outside the file.</exception>
    public string? Text(ushort tag)
    {
        if (!_entries.TryGetValue(tag, out TiffEntry entry) || entry.ValueBytes != 1)
        {
            return null;
        }

        var bytes = new byte[Math.Min(entry.Count, LongestTextBytes)];
        RequireInside(tag, entry);
        _file.Read(entry.ValueOffset, bytes);
        int end = Array.IndexOf(bytes, (byte)0);
        string text = Encoding.UTF8.GetString(bytes, 0, end < 0 ? bytes.Length : end).Trim();
        return text.Length == 0 ? null : text;
    }

    private double? FirstOf(ushort tag) =>
        _entries.TryGetValue(tag, out TiffEntry entry) && entry.Count > 0 ? ReadNumbers(tag, entry, 1)[0] : null;

    private double[] ReadNumbers(ushort tag, TiffEntry entry, int count)
    {
        RequireInside(tag, entry);
        int size = entry.ValueBytes;
        var bytes = new byte[count * size];
        _file.Read(entry.ValueOffset, bytes);
        var numbers = new double[count];
        for (int i = 0; i < count; i++)
        {
            numbers[i] = NumberAt(bytes.AsSpan(i * size, size), entry.Type);
        }

        return numbers;
    }

    private void RequireInside(ushort tag, TiffEntry entry)
    {
        if (!_file.Holds(entry.ValueOffset, entry.TotalBytes) || entry.TotalBytes > int.MaxValue)
        {
            throw new MalformedFileException($"The values of tag {tag} lie outside the file.");
        }
    }

    private double NumberAt(ReadOnlySpan<byte> value, TiffFieldType type) => type switch
    {
        TiffFieldType.SByte => (sbyte)value[0],
        TiffFieldType.Short => Unsigned16(value),
        TiffFieldType.SShort => (short)Unsigned16(value),
        TiffFieldType.Long or TiffFieldType.Ifd => Unsigned32(value),
        TiffFieldType.SLong => (int)Unsigned32(value),
        TiffFieldType.Rational => Ratio(Unsigned32(value), Unsigned32(value[4..])),
        TiffFieldType.SRational => Ratio((int)Unsigned32(value), (int)Unsigned32(value[4..])),
        TiffFieldType.Float => _isBigEndian ? BinaryPrimitives.ReadSingleBigEndian(value) : BinaryPrimitives.ReadSingleLittleEndian(value),
        TiffFieldType.Double => _isBigEndian ? BinaryPrimitives.ReadDoubleBigEndian(value) : BinaryPrimitives.ReadDoubleLittleEndian(value),
        _ => value[0],
    };

    private ushort Unsigned16(ReadOnlySpan<byte> value) =>
        _isBigEndian ? BinaryPrimitives.ReadUInt16BigEndian(value) : BinaryPrimitives.ReadUInt16LittleEndian(value);

    private uint Unsigned32(ReadOnlySpan<byte> value) =>
        _isBigEndian ? BinaryPrimitives.ReadUInt32BigEndian(value) : BinaryPrimitives.ReadUInt32LittleEndian(value);

    private static double Ratio(double numerator, double denominator) => denominator == 0 ? double.NaN : numerator / denominator;
}
