using System.Buffers.Binary;
using System.Text;

namespace SensorLab.RawFiles.Tests.Support;

/// <summary>A directory to be written: the tests' own writer, which shares nothing with the reader.</summary>
internal sealed class TestDirectory(bool isBigEndian)
{
    private readonly SortedDictionary<int, (int Type, int Count, byte[] Value)> _entries = [];

    public TestDirectory Shorts(int tag, params int[] values) => Set(tag, 3, values.Length, values.SelectMany(v => Bytes16(v)));

    public TestDirectory Longs(int tag, params long[] values) => Set(tag, 4, values.Length, values.SelectMany(v => Bytes32(v)));

    public TestDirectory Rationals(int tag, params (long Over, long Under)[] values) =>
        Set(tag, 5, values.Length, values.SelectMany(v => Bytes32(v.Over).Concat(Bytes32(v.Under))));

    public TestDirectory SignedRationals(int tag, params (long Over, long Under)[] values) =>
        Set(tag, 10, values.Length, values.SelectMany(v => Bytes32(v.Over).Concat(Bytes32(v.Under))));

    public TestDirectory Bytes(int tag, params byte[] values) => Set(tag, 1, values.Length, values);

    public TestDirectory Text(int tag, string text) => Set(tag, 2, text.Length + 1, Encoding.ASCII.GetBytes(text + "\0"));

    public TestDirectory Raw(int tag, int type, long count, long value)
    {
        _entries[tag] = (type, unchecked((int)count), Bytes32(value));
        return this;
    }

    public TestDirectory Without(int tag)
    {
        _entries.Remove(tag);
        return this;
    }

    /// <summary>The directory's bytes when it starts at an offset.</summary>
    public byte[] ToBytes(long offset, long next = 0)
    {
        var head = new MemoryStream();
        var values = new MemoryStream();
        long valuesAt = offset + 2 + (12 * _entries.Count) + 4;
        head.Write(Bytes16(_entries.Count));
        foreach ((int tag, (int type, int count, byte[] value)) in _entries)
        {
            head.Write(Bytes16(tag));
            head.Write(Bytes16(type));
            head.Write(Bytes32((uint)count));
            if (value.Length <= 4)
            {
                head.Write([.. value, .. new byte[4 - value.Length]]);
                continue;
            }

            head.Write(Bytes32(valuesAt + values.Length));
            values.Write(value);
            values.Write(new byte[value.Length % 2]);
        }

        head.Write(Bytes32(next));
        return [.. head.ToArray(), .. values.ToArray()];
    }

    public byte[] Bytes16(int value)
    {
        var bytes = new byte[2];
        if (isBigEndian)
        {
            BinaryPrimitives.WriteUInt16BigEndian(bytes, (ushort)value);
        }
        else
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)value);
        }

        return bytes;
    }

    public byte[] Bytes32(long value)
    {
        var bytes = new byte[4];
        if (isBigEndian)
        {
            BinaryPrimitives.WriteUInt32BigEndian(bytes, unchecked((uint)value));
        }
        else
        {
            BinaryPrimitives.WriteUInt32LittleEndian(bytes, unchecked((uint)value));
        }

        return bytes;
    }

    private TestDirectory Set(int tag, int type, int count, IEnumerable<byte> value)
    {
        _entries[tag] = (type, count, [.. value]);
        return this;
    }
}
