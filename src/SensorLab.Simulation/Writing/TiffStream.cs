using System.Buffers.Binary;

namespace SensorLab.Simulation.Writing;

/// <summary>The bytes of a TIFF file under construction, in its byte order.</summary>
internal sealed class TiffStream : IDisposable
{
    private readonly MemoryStream _bytes;
    private readonly bool _isBigEndian;

    /// <summary>Begins a file.</summary>
    /// <param name="isBigEndian">Whether the most significant byte comes first.</param>
    /// <param name="capacity">Bytes expected.</param>
    public TiffStream(bool isBigEndian, int capacity)
    {
        _isBigEndian = isBigEndian;
        _bytes = new MemoryStream(capacity);
        byte letter = isBigEndian ? (byte)'M' : (byte)'I';
        WriteByte(letter);
        WriteByte(letter);
        WriteShort(42);
        WriteLong(0);
    }

    /// <summary>Where the next byte goes.</summary>
    public uint Position => checked((uint)_bytes.Position);

    /// <summary>Writes one byte.</summary>
    public void WriteByte(byte value) => _bytes.WriteByte(value);

    /// <summary>Writes bytes.</summary>
    public void Write(ReadOnlySpan<byte> bytes) => _bytes.Write(bytes);

    /// <summary>Writes zeros.</summary>
    public void WriteZeros(int count)
    {
        for (int i = 0; i < count; i++)
        {
            _bytes.WriteByte(0);
        }
    }

    /// <summary>Writes a number of 16 bits.</summary>
    public void WriteShort(ushort value)
    {
        Span<byte> bytes = stackalloc byte[2];
        if (_isBigEndian)
        {
            BinaryPrimitives.WriteUInt16BigEndian(bytes, value);
        }
        else
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes, value);
        }

        _bytes.Write(bytes);
    }

    /// <summary>Writes a number of 32 bits.</summary>
    public void WriteLong(uint value)
    {
        Span<byte> bytes = stackalloc byte[4];
        if (_isBigEndian)
        {
            BinaryPrimitives.WriteUInt32BigEndian(bytes, value);
        }
        else
        {
            BinaryPrimitives.WriteUInt32LittleEndian(bytes, value);
        }

        _bytes.Write(bytes);
    }

    /// <summary>Moves on to an even offset.</summary>
    public void Align() => WriteZeros((int)(Position & 1));

    /// <summary>Ends the file.</summary>
    /// <param name="firstDirectory">The offset of the first directory.</param>
    /// <returns>The whole file.</returns>
    public byte[] Finish(uint firstDirectory)
    {
        _bytes.Position = 4;
        WriteLong(firstDirectory);
        return _bytes.ToArray();
    }

    /// <inheritdoc/>
    public void Dispose() => _bytes.Dispose();
}
