using System.Buffers.Binary;
using System.Text;

namespace SensorLab.Simulation.Tests.Writing;

/// <summary>A DNG taken apart by hand, as far as these tests need it: independent of the suite's reader.</summary>
internal sealed class MinimalDng
{
    private readonly byte[] _bytes;
    private readonly bool _big;

    public MinimalDng(byte[] bytes)
    {
        _bytes = bytes;
        _big = bytes[0] == 'M';
        Assert.Equal(42, U16(2));
        First = Directory(U32(4));
        Raw = First.TryGetValue(330, out double[]? below) ? Directory((int)below[0]) : First;
        Exif = Directory((int)First[34665][0]);
    }

    public Dictionary<int, double[]> First { get; }

    public Dictionary<int, double[]> Raw { get; }

    public Dictionary<int, double[]> Exif { get; }

    public static string Text(double[] values) => Encoding.ASCII.GetString([.. values.Select(value => (byte)value)]).TrimEnd('\0');

    /// <summary>The bytes of each strip or tile in order.</summary>
    public IReadOnlyList<byte[]> Blocks()
    {
        double[] offsets = Raw.GetValueOrDefault(324) ?? Raw[273];
        double[] lengths = Raw.GetValueOrDefault(325) ?? Raw[279];
        return [.. offsets.Zip(lengths, (offset, length) => _bytes.AsSpan((int)offset, (int)length).ToArray())];
    }

    /// <summary>The samples of a block of rows that begin on a byte, most significant bit first (16 bits: in the file's order).</summary>
    public ushort[] Unpack(byte[] block, int width)
    {
        int bits = (int)Raw[258][0];
        int bytesARow = ((width * bits) + 7) / 8;
        var samples = new ushort[block.Length / bytesARow * width];
        for (int i = 0; i < samples.Length; i++)
        {
            int row = i / width;
            if (bits == 16)
            {
                ReadOnlySpan<byte> two = block.AsSpan(2 * i, 2);
                samples[i] = _big ? BinaryPrimitives.ReadUInt16BigEndian(two) : BinaryPrimitives.ReadUInt16LittleEndian(two);
                continue;
            }

            int first = (8 * row * bytesARow) + (i % width * bits);
            for (int bit = first; bit < first + bits; bit++)
            {
                samples[i] = (ushort)((samples[i] << 1) | ((block[bit / 8] >> (7 - (bit % 8))) & 1));
            }
        }

        return samples;
    }

    private Dictionary<int, double[]> Directory(int offset)
    {
        var entries = new Dictionary<int, double[]>();
        int count = U16(offset);
        int lastTag = -1;
        for (int i = 0; i < count; i++)
        {
            int at = offset + 2 + (12 * i);
            int tag = U16(at);
            Assert.True(tag > lastTag, "TIFF 6.0: entries ascend by tag.");
            lastTag = tag;
            int type = U16(at + 2);
            int size = type switch { 1 or 2 or 7 => 1, 3 => 2, 4 => 4, _ => 8 };
            int values = U32(at + 4);
            int place = values * size <= 4 ? at + 8 : U32(at + 8);
            entries[tag] = [.. Enumerable.Range(0, values).Select(k => Value(type, place + (k * size)))];
        }

        return entries;
    }

    private double Value(int type, int at) => type switch
    {
        1 or 2 or 7 => _bytes[at],
        3 => U16(at),
        4 => (uint)U32(at),
        5 => (double)(uint)U32(at) / (uint)U32(at + 4),
        10 => (double)U32(at) / U32(at + 4),
        _ => throw new InvalidDataException($"Type {type} is not written."),
    };

    private int U16(int at) => _big ? BinaryPrimitives.ReadUInt16BigEndian(_bytes.AsSpan(at)) : BinaryPrimitives.ReadUInt16LittleEndian(_bytes.AsSpan(at));

    private int U32(int at) => _big ? BinaryPrimitives.ReadInt32BigEndian(_bytes.AsSpan(at)) : BinaryPrimitives.ReadInt32LittleEndian(_bytes.AsSpan(at));
}
