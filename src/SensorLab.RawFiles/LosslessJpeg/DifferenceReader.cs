using System.Buffers.Binary;
using System.Runtime.CompilerServices;
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

    /// <summary>A code of 16 bits with 15 extra ones.</summary>
    private const int MostBitsOfOne = 31;

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
        int mostBits = Math.Max(even.MostBits, odd.MostBits);
        int done = 0;
        while (done < differences.Length)
        {
            int safe = isPaired ? SafeSamples(mostBits, differences.Length - done) : 0;
            (HuffmanTable first, HuffmanTable second) = (done & 1) == 0 ? (even, odd) : (odd, even);
            int fast = ReadPairs(differences.Slice(done, safe), first.Lookup, second.Lookup);
            done += fast;
            if (fast == safe && safe > 0)
            {
                continue;
            }

            differences[done] = ReadOne(tables[done % tables.Count]);
            done++;
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

    /// <summary>
    /// Pairs that lie in the window whole, up to a code that the lookup does not hold. One refill nearly always holds
    /// both halves. No call leaves the loop, so that its state stays in registers.
    /// </summary>
    private int ReadPairs(Span<ushort> target, ushort[] first, ushort[] second)
    {
        ReadOnlySpan<byte> bytes = _bytes.Clean;
        ulong bits = _bits;
        int count = _count;
        int at = _at;
        int done = 0;
        while (done + 1 < target.Length)
        {
            Refill(bytes, ref bits, ref count, ref at);
            int entry = first[(int)(bits >> LookupShift)];
            if (entry == 0)
            {
                break;
            }

            target[done] = Take(entry, ref bits, ref count);
            done++;
            if (count < MostBitsOfOne)
            {
                Refill(bytes, ref bits, ref count, ref at);
            }

            entry = second[(int)(bits >> LookupShift)];
            if (entry == 0)
            {
                break;
            }

            target[done] = Take(entry, ref bits, ref count);
            done++;
        }

        (_bits, _count, _at) = (bits, count, at);
        return done;
    }

    /// <summary>Adds the next bytes below the bits at hand: to at least <see cref="RefilledBits"/>, by whole bytes.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Refill(ReadOnlySpan<byte> bytes, ref ulong bits, ref int count, ref int at)
    {
        bits |= BinaryPrimitives.ReadUInt64BigEndian(bytes.Slice(at, sizeof(ulong))) >> count;
        at += (count ^ 63) >> 3;
        count |= RefilledBits;
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

        ushort difference = Take(table.Find(_bits), ref _bits, ref _count);
        return _count >= 0 ? difference : throw new MalformedFileException("The lossless JPEG data end early.");
    }

    /// <summary>
    /// Takes a code with its extra bits: the difference is the extra bits, less 2^n − 1 where the first of them is 0,
    /// which is the same as minus their complement. Shift counts are modulo 64, so entries serve as counts unmasked.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ushort Take(int entry, ref ulong bits, ref int count)
    {
        int category = (entry >> HuffmanTable.CategoryShift) & HuffmanTable.CategoryMask;
        ulong extra = bits << (entry - category);
        bits <<= entry;
        count -= entry & HuffmanTable.TotalMask;
        long sign = (long)~extra >> 63;
        int magnitude = (int)((extra ^ (ulong)sign) >> 1 >> ~category);
        return (ushort)(((magnitude ^ (int)sign) - (int)sign) | (entry & HuffmanTable.WholeRange));
    }
}
