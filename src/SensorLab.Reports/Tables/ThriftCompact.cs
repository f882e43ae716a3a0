using System.Text;

namespace SensorLab.Reports.Tables;

/// <summary>Writes structures in Thrift's compact protocol, as Parquet's headers and footer are.</summary>
/// <remarks>Apache Thrift, "Thrift Compact protocol encoding" (doc/specs/thrift-compact-protocol.md).</remarks>
internal sealed class ThriftCompact
{
    private const byte Int32Type = 5;
    private const byte Int64Type = 6;
    private const byte BinaryType = 8;
    private const byte ListType = 9;
    private const byte StructType = 12;
    private const int LongList = 15;

    private readonly List<byte> _bytes = [];
    private int _lastField;

    /// <summary>A whole number.</summary>
    public ThriftCompact Int32(int field, int value)
    {
        Field(field, Int32Type);
        Number(value);
        return this;
    }

    /// <summary>A long whole number.</summary>
    public ThriftCompact Int64(int field, long value)
    {
        Field(field, Int64Type);
        Number(value);
        return this;
    }

    /// <summary>A text.</summary>
    public ThriftCompact Text(int field, string value)
    {
        Field(field, BinaryType);
        Binary(value);
        return this;
    }

    /// <summary>A structure.</summary>
    public ThriftCompact Struct(int field, ThriftCompact value)
    {
        Field(field, StructType);
        _bytes.AddRange(value.Bytes());
        return this;
    }

    /// <summary>A list of structures.</summary>
    public ThriftCompact Structs(int field, IReadOnlyList<ThriftCompact> values)
    {
        List(field, StructType, values.Count);
        foreach (ThriftCompact value in values)
        {
            _bytes.AddRange(value.Bytes());
        }

        return this;
    }

    /// <summary>A list of whole numbers.</summary>
    public ThriftCompact Int32s(int field, params IReadOnlyList<int> values)
    {
        List(field, Int32Type, values.Count);
        foreach (int value in values)
        {
            Number(value);
        }

        return this;
    }

    /// <summary>A list of texts.</summary>
    public ThriftCompact Texts(int field, params IReadOnlyList<string> values)
    {
        List(field, BinaryType, values.Count);
        foreach (string value in values)
        {
            Binary(value);
        }

        return this;
    }

    /// <summary>The structure with its end.</summary>
    public byte[] Bytes() => [.. _bytes, 0];

    // Fields come in rising order, no more than 15 apart.
    private void Field(int field, byte type)
    {
        _bytes.Add((byte)(((field - _lastField) << 4) | type));
        _lastField = field;
    }

    private void List(int field, byte type, int count)
    {
        Field(field, ListType);
        _bytes.Add((byte)((Math.Min(count, LongList) << 4) | type));
        if (count >= LongList)
        {
            Varint((ulong)count);
        }
    }

    private void Binary(string text)
    {
        byte[] utf8 = Encoding.UTF8.GetBytes(text);
        Varint((ulong)utf8.Length);
        _bytes.AddRange(utf8);
    }

    // Zigzag: small numbers of either sign are short.
    private void Number(long value) => Varint((ulong)((value << 1) ^ (value >> 63)));

    private void Varint(ulong value)
    {
        while (value >= 0x80)
        {
            _bytes.Add((byte)(value | 0x80));
            value >>= 7;
        }

        _bytes.Add((byte)value);
    }
}
