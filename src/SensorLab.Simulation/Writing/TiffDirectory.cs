using System.Text;

namespace SensorLab.Simulation.Writing;

/// <summary>A directory of TIFF 6.0 under construction: entries by tag, written in the file's byte order.</summary>
internal sealed class TiffDirectory
{
    private const int InlineBytes = 4;

    private readonly SortedDictionary<TiffTag, Entry> _entries = [];

    private enum FieldType : ushort
    {
        Byte = 1,
        Ascii = 2,
        Short = 3,
        Long = 4,
        Rational = 5,
        Undefined = 7,
        SignedRational = 10,
    }

    /// <summary>Adds bytes.</summary>
    public void AddBytes(TiffTag tag, params ReadOnlySpan<byte> values) => Add(tag, FieldType.Byte, 1, Widen(values));

    /// <summary>Adds bytes without a type.</summary>
    public void AddUndefined(TiffTag tag, params ReadOnlySpan<byte> values) => Add(tag, FieldType.Undefined, 1, Widen(values));

    /// <summary>Adds text, closed by a zero.</summary>
    public void AddText(TiffTag tag, string value) => Add(tag, FieldType.Ascii, 1, Widen(Encoding.ASCII.GetBytes(value + "\0")));

    /// <summary>Adds numbers of 16 bits.</summary>
    public void AddShort(TiffTag tag, params ReadOnlySpan<ushort> values)
    {
        var wide = new uint[values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            wide[i] = values[i];
        }

        Add(tag, FieldType.Short, 2, wide);
    }

    /// <summary>Adds numbers of 32 bits.</summary>
    public void AddLong(TiffTag tag, params ReadOnlySpan<uint> values) => Add(tag, FieldType.Long, 4, values.ToArray());

    /// <summary>Adds fractions of 32 over 32 bits.</summary>
    public void AddRational(TiffTag tag, params ReadOnlySpan<Rational> values) => Add(tag, FieldType.Rational, 8, Flatten(values));

    /// <summary>Adds fractions of 32 over 32 bits with sign.</summary>
    public void AddSignedRational(TiffTag tag, params ReadOnlySpan<Rational> values) => Add(tag, FieldType.SignedRational, 8, Flatten(values));

    /// <summary>Writes the directory and its values.</summary>
    /// <param name="file">The file, positioned at its end.</param>
    /// <returns>The offset of the directory.</returns>
    public uint WriteTo(TiffStream file)
    {
        file.Align();
        uint offset = file.Position;
        uint valueOffset = offset + 2 + (12 * (uint)_entries.Count) + 4;
        file.WriteShort((ushort)_entries.Count);
        foreach ((TiffTag tag, Entry entry) in _entries)
        {
            file.WriteShort((ushort)tag);
            file.WriteShort((ushort)entry.Type);
            file.WriteLong(entry.Count);
            if (entry.Bytes <= InlineBytes)
            {
                WriteValues(file, entry);
                file.WriteZeros(InlineBytes - entry.Bytes);
            }
            else
            {
                file.WriteLong(valueOffset);
                valueOffset += (uint)(entry.Bytes + (entry.Bytes & 1));
            }
        }

        file.WriteLong(0);
        foreach (Entry entry in _entries.Values.Where(entry => entry.Bytes > InlineBytes))
        {
            WriteValues(file, entry);
            file.Align();
        }

        return offset;
    }

    private static void WriteValues(TiffStream file, Entry entry)
    {
        foreach (uint value in entry.Values)
        {
            switch (entry.Size)
            {
                case 1:
                    file.WriteByte((byte)value);
                    break;
                case 2:
                    file.WriteShort((ushort)value);
                    break;
                default:
                    file.WriteLong(value);
                    break;
            }
        }
    }

    private static uint[] Widen(ReadOnlySpan<byte> values)
    {
        var wide = new uint[values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            wide[i] = values[i];
        }

        return wide;
    }

    private static uint[] Flatten(ReadOnlySpan<Rational> values)
    {
        var flat = new uint[2 * values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            flat[2 * i] = (uint)values[i].Numerator;
            flat[(2 * i) + 1] = (uint)values[i].Denominator;
        }

        return flat;
    }

    private void Add(TiffTag tag, FieldType type, int size, uint[] values) => _entries[tag] = new Entry(type, size, values);

    private sealed record Entry(FieldType Type, int Size, uint[] Values)
    {
        public int Bytes => Values.Length * Math.Min(Size, 4);

        public uint Count => (uint)(Bytes / Size);
    }
}
