using System.Buffers.Binary;
using System.Text;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>Writes the entries of one little-endian TIFF directory, longer values elsewhere.</summary>
/// <param name="file">The file.</param>
/// <param name="directory">Where the directory begins.</param>
/// <param name="values">Where its longer values begin.</param>
/// <remarks>TIFF 6.0, chapter 2.</remarks>
internal sealed class TiffDirectoryWriter(byte[] file, int directory, int values)
{
    private int _values = values;
    private ushort _count;

    /// <summary>A BYTE entry.</summary>
    public void Bytes(ushort tag, params ReadOnlySpan<byte> value) => Write(tag, 1, value.Length, value);

    /// <summary>An ASCII entry, its NUL added.</summary>
    public void Text(ushort tag, string value) => Write(tag, 2, value.Length + 1, Encoding.ASCII.GetBytes(value + "\0"));

    /// <summary>A SHORT entry.</summary>
    public void Short(ushort tag, params ReadOnlySpan<ushort> value)
    {
        byte[] bytes = new byte[2 * value.Length];
        for (int i = 0; i < value.Length; i++)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(2 * i), value[i]);
        }

        Write(tag, 3, value.Length, bytes);
    }

    /// <summary>A LONG entry.</summary>
    public void Long(ushort tag, params ReadOnlySpan<int> value) => Write(tag, 4, value.Length, Words(value));

    /// <summary>A RATIONAL entry of one value.</summary>
    public void Rational(ushort tag, int numerator, int denominator) => Write(tag, 5, 1, Words([numerator, denominator]));

    /// <summary>Ends the directory without a next one; returns the first byte behind its values.</summary>
    public int Close()
    {
        BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(directory), _count);
        return _values;
    }

    private static byte[] Words(ReadOnlySpan<int> value)
    {
        byte[] bytes = new byte[4 * value.Length];
        for (int i = 0; i < value.Length; i++)
        {
            BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4 * i), value[i]);
        }

        return bytes;
    }

    private void Write(ushort tag, ushort type, int count, ReadOnlySpan<byte> value)
    {
        Span<byte> entry = file.AsSpan(directory + 2 + (12 * _count), 12);
        BinaryPrimitives.WriteUInt16LittleEndian(entry, tag);
        BinaryPrimitives.WriteUInt16LittleEndian(entry[2..], type);
        BinaryPrimitives.WriteInt32LittleEndian(entry[4..], count);
        if (value.Length <= 4)
        {
            value.CopyTo(entry[8..]);
        }
        else
        {
            BinaryPrimitives.WriteInt32LittleEndian(entry[8..], _values);
            value.CopyTo(file.AsSpan(_values));
            _values += value.Length + (value.Length & 1);
        }

        _count++;
    }
}
