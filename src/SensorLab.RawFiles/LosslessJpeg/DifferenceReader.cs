using System.Buffers.Binary;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>Decodes Huffman-coded differences: the loop in which the time of a lossless file goes.</summary>
/// <remarks>
/// ITU-T T.81, F.2.2.1, F.2.2.3 and H.1.2.2. The next 64 bits lie in one word, the first one highest; a refill is one
/// load of eight bytes, since the window holds no stuffing. A code and its category come from one lookup, and the
/// extra bits from two shifts without a branch.
/// </remarks>
internal sealed class DifferenceReader
{
    /// <summary>A refill leaves at least this many bits.</summary>
    private const int RefilledBits = 56;

    /// <summary>Bytes that the fast loops leave untouched, so that every load of eight lies in the window.</summary>
    private const int ReserveBytes = 16;

    private const int LookupShift = 64 - HuffmanTable.LookupBits;

    private readonly EntropyBytes _bytes;
    private ulong _bits;
    private int _count;
    private int _at;

    /// <summary>Creates a reader.</summary>
    /// <param name="bytes">The data, at the start of an interval.</param>
    public DifferenceReader(EntropyBytes bytes) => _bytes = bytes;

    /// <summary>Starts anew at the window's next byte, as behind a marker.</summary>
    public void Restart()
    {
        _bits = 0;
        _count = 0;
        _at = 0;
    }

    /// <summary>Decodes differences.</summary>
    /// <param name="differences">Filled whole, modulo 65536, the components' alternating.</param>
    /// <param name="tables">The components' tables.</param>
    /// <exception cref="MalformedFileException">The data end early or hold an unknown code.</exception>
    public void Read(Span<ushort> differences, IReadOnlyList<HuffmanTable> tables)
    {
        HuffmanTable even = tables[0];
        HuffmanTable odd = tables[^1];
        bool isPaired = tables.Count <= 2;
        bool isShort = even.MostBits <= RefilledBits / 2 && odd.MostBits <= RefilledBits / 2;
        int mostBits = tables.Max(table => table.MostBits);
        int done = 0;
        while (done < differences.Length)
        {
            int safe = isPaired ? SafeSamples(mostBits, differences.Length - done) : 0;
            if (safe > 0)
            {
                Span<ushort> target = differences.Slice(done, safe);
                if (isShort)
                {
                    ReadShort(target, even, odd);
                }
                else
                {
                    ReadLong(target, even, odd);
                }

                done += safe;
            }
            else
            {
                differences[done] = ReadOne(tables[done % tables.Count]);
                done++;
            }
        }
    }

    /// <summary>Whole pairs that the window surely holds, topping it up when it runs low.</summary>
    private int SafeSamples(int mostBits, int wanted)
    {
        if (_bytes.Clean.Length - _at < ReserveBytes + (wanted * mostBits / 8) && !_bytes.IsLast)
        {
            _bytes.Advance(_at);
            _at = 0;
        }

        int spareBytes = _bytes.Clean.Length - _at - ReserveBytes;
        return spareBytes <= 0 ? 0 : (int)Math.Min(wanted, spareBytes * 8L / mostBits) & ~1;
    }

    /// <summary>Pairs whose codes and extra bits fit in one refill.</summary>
    private void ReadShort(Span<ushort> target, HuffmanTable even, HuffmanTable odd)
    {
        ReadOnlySpan<byte> bytes = _bytes.Clean;
        ReadOnlySpan<ushort> evenLookup = even.Lookup;
        ReadOnlySpan<ushort> oddLookup = odd.Lookup;
        ulong bits = _bits;
        int count = _count;
        int at = _at;
        for (int i = 0; i + 1 < target.Length; i += 2)
        {
            bits |= BinaryPrimitives.ReadUInt64BigEndian(bytes.Slice(at, 8)) >> count;
            at += (63 - count) >> 3;
            count |= RefilledBits;

            int entry = evenLookup[(int)(bits >> LookupShift)];
            target[i] = entry != 0 ? Take(entry, ref bits, ref count) : TakeFound(even, ref bits, ref count);
            entry = oddLookup[(int)(bits >> LookupShift)];
            target[i + 1] = entry != 0 ? Take(entry, ref bits, ref count) : TakeFound(odd, ref bits, ref count);
        }

        (_bits, _count, _at) = (bits, count, at);
    }

    /// <summary>Pairs with a refill for each half.</summary>
    private void ReadLong(Span<ushort> target, HuffmanTable even, HuffmanTable odd)
    {
        ReadOnlySpan<byte> bytes = _bytes.Clean;
        ulong bits = _bits;
        int count = _count;
        int at = _at;
        for (int i = 0; i < target.Length; i++)
        {
            bits |= BinaryPrimitives.ReadUInt64BigEndian(bytes.Slice(at, 8)) >> count;
            at += (63 - count) >> 3;
            count |= RefilledBits;

            HuffmanTable table = (i & 1) == 0 ? even : odd;
            int entry = table.Lookup[(int)(bits >> LookupShift)];
            target[i] = entry != 0 ? Take(entry, ref bits, ref count) : TakeFound(table, ref bits, ref count);
        }

        (_bits, _count, _at) = (bits, count, at);
    }

    /// <summary>One difference, byte by byte: near the data's end, and for three and four components.</summary>
    private ushort ReadOne(HuffmanTable table)
    {
        if (_bytes.Clean.Length - _at < sizeof(ulong) && !_bytes.IsLast)
        {
            _bytes.Advance(_at);
            _at = 0;
        }

        ReadOnlySpan<byte> bytes = _bytes.Clean;
        while (_count <= RefilledBits && _at < bytes.Length)
        {
            _bits |= (ulong)bytes[_at++] << (RefilledBits - _count);
            _count += 8;
        }

        ushort difference = TakeFound(table, ref _bits, ref _count);
        return _count >= 0 ? difference : throw new MalformedFileException("The lossless JPEG data end early.");
    }

    /// <summary>Takes a code with its extra bits: the difference is the extra bits, less 2^n − 1 where the first of them is 0.</summary>
    private static ushort Take(int entry, ref ulong bits, ref int count)
    {
        int length = entry >> 8;
        int category = entry & 0xFF;
        ulong extra = bits << length;
        bits = extra << category;
        count -= length + category;
        int value = (int)(extra >> 1 >> (63 - category));
        int isNegative = (int)(~(long)extra >> 63);
        return (ushort)(value - (((1 << category) - 1) & isNegative));
    }

    private static ushort TakeFound(HuffmanTable table, ref ulong bits, ref int count)
    {
        (int length, int category) = table.Find(bits);
        if (category != HuffmanTable.WholeRangeCategory)
        {
            return Take((length << 8) | category, ref bits, ref count);
        }

        bits <<= length;
        count -= length;
        return 1 << 15;
    }
}
