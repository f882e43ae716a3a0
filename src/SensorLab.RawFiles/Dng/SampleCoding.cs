using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace SensorLab.RawFiles.Dng;

/// <summary>How samples lie in the bytes of a row: 8 or 16 bits each, or packed without gaps, the highest bit first.</summary>
/// <param name="Bits">Bits a sample, 8 to 16.</param>
/// <param name="IsBigEndian">The byte order of 16-bit samples; packed ones have none (DNG 1.7, chapter 4, BitsPerSample).</param>
internal readonly record struct SampleCoding(int Bits, bool IsBigEndian)
{
    /// <summary>Whether samples are stored as they lie in memory, or with their bytes swapped.</summary>
    public bool IsWhole => Bits == 16;

    /// <summary>Bytes of a row, which always ends on a whole byte.</summary>
    /// <param name="columns">Samples of the row.</param>
    public int RowBytes(int columns) => (int)(((long)columns * Bits + 7) / 8);

    /// <summary>Decodes a row.</summary>
    /// <param name="source">The row's bytes.</param>
    /// <param name="target">Its first samples; may be fewer than the row has.</param>
    public void Decode(ReadOnlySpan<byte> source, Span<ushort> target)
    {
        if (Bits == 16)
        {
            MemoryMarshal.Cast<byte, ushort>(source)[..target.Length].CopyTo(target);
            OrderBytes(target);
        }
        else if (Bits == 8)
        {
            source = source[..target.Length];
            for (int i = 0; i < source.Length; i++)
            {
                target[i] = source[i];
            }
        }
        else
        {
            Unpack(source, target);
        }
    }

    /// <summary>Brings 16-bit samples, copied as they were stored, into the machine's byte order.</summary>
    /// <param name="samples">The samples.</param>
    public void OrderBytes(Span<ushort> samples)
    {
        if (IsBigEndian == BitConverter.IsLittleEndian)
        {
            BinaryPrimitives.ReverseEndianness(samples, samples);
        }
    }

    private void Unpack(ReadOnlySpan<byte> source, Span<ushort> target)
    {
        int mask = (1 << Bits) - 1;
        int done = Bits % 2 == 0 ? UnpackFours(source, target, mask) : 0;
        long at = (long)done * Bits;
        for (; done < target.Length; done++)
        {
            int first = (int)(at >> 3);
            int window = (source[first] << 16) | (ByteOr0(source, first + 1) << 8) | ByteOr0(source, first + 2);
            target[done] = (ushort)((window >> (24 - Bits - (int)(at & 7))) & mask);
            at += Bits;
        }
    }

    /// <summary>Four samples of an even number of bits end on a whole byte; one load of eight bytes holds them.</summary>
    private int UnpackFours(ReadOnlySpan<byte> source, Span<ushort> target, int mask)
    {
        int bits = Bits;
        int step = bits / 2;
        int done = 0;
        for (int at = 0; done + 4 <= target.Length && at + 8 <= source.Length; done += 4, at += step)
        {
            ulong word = BinaryPrimitives.ReadUInt64BigEndian(source.Slice(at, 8));
            Span<ushort> four = target.Slice(done, 4);
            four[0] = (ushort)((int)(word >> (64 - bits)) & mask);
            four[1] = (ushort)((int)(word >> (64 - (2 * bits))) & mask);
            four[2] = (ushort)((int)(word >> (64 - (3 * bits))) & mask);
            four[3] = (ushort)((int)(word >> (64 - (4 * bits))) & mask);
        }

        return done;
    }

    private static int ByteOr0(ReadOnlySpan<byte> source, int at) => at < source.Length ? source[at] : 0;
}
