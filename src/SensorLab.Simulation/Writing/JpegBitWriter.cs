namespace SensorLab.Simulation.Writing;

/// <summary>The bytes of a JPEG under construction: markers, segments, and entropy-coded bits with their stuffing.</summary>
/// <remarks>ITU-T T.81, sections B.1.1 and F.1.2.3.</remarks>
internal sealed class JpegBitWriter
{
    private readonly List<byte> _bytes;
    private ulong _held;
    private int _heldBits;

    /// <summary>Begins a stream.</summary>
    /// <param name="capacity">Bytes expected.</param>
    public JpegBitWriter(int capacity) => _bytes = new List<byte>(capacity);

    /// <summary>Writes bits, the most significant first.</summary>
    public void WriteBits(int value, int count)
    {
        _held = (_held << count) | (uint)value;
        _heldBits += count;
        while (_heldBits >= 8)
        {
            _heldBits -= 8;
            byte next = (byte)(_held >> _heldBits);
            _bytes.Add(next);
            if (next == 0xFF)
            {
                _bytes.Add(0);
            }
        }
    }

    /// <summary>Fills the byte begun with ones.</summary>
    public void AlignWithOnes()
    {
        if (_heldBits > 0)
        {
            int missing = 8 - _heldBits;
            WriteBits((1 << missing) - 1, missing);
        }
    }

    /// <summary>Writes a marker without a segment.</summary>
    public void WriteMarker(byte code)
    {
        _bytes.Add(0xFF);
        _bytes.Add(code);
    }

    /// <summary>Writes a marker and its segment.</summary>
    public void WriteSegment(byte code, ReadOnlySpan<byte> content)
    {
        WriteMarker(code);
        int length = content.Length + 2;
        _bytes.Add((byte)(length >> 8));
        _bytes.Add((byte)length);
        _bytes.AddRange(content);
    }

    /// <summary>All bytes so far.</summary>
    public byte[] ToArray() => [.. _bytes];
}
