using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorLab.Pixels.Planes;

/// <summary>Takes a mosaic's row apart into its channels, and tells how large its values are.</summary>
internal static class PlaneSplitter
{
    private static readonly Vector256<byte> OrderOfFirst = Order(0, 3, 6, 1, 4, 7, 2, 5);
    private static readonly Vector256<byte> OrderOfSecond = Order(1, 4, 7, 2, 5, 0, 3, 6);
    private static readonly Vector256<byte> OrderOfThird = Order(2, 5, 0, 3, 6, 1, 4, 7);

    /// <summary>Splits a row into its even and odd photosites.</summary>
    /// <param name="row">Photosites, an even number of them.</param>
    /// <param name="even">Destination of photosites 0, 2, 4 …, half the row's length.</param>
    /// <param name="odd">Destination of photosites 1, 3, 5 …, half the row's length.</param>
    /// <returns>All bits that any of the values has.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static ushort Split(ReadOnlySpan<ushort> row, Span<ushort> even, Span<ushort> odd)
    {
        int pairs = row.Length / 2;
        ReadOnlySpan<uint> source = MemoryMarshal.Cast<ushort, uint>(row);
        int i = 0;
        Vector256<uint> bits = default;
        if (Vector256.IsHardwareAccelerated && BitConverter.IsLittleEndian)
        {
            Vector256<uint> low = Vector256.Create(0xFFFFu);
            for (; i <= pairs - 16; i += 16)
            {
                Vector256<uint> first = Vector256.Create(source[i..]);
                Vector256<uint> second = Vector256.Create(source[(i + 8)..]);
                bits |= first | second;
                Vector256.Narrow(first & low, second & low).CopyTo(even[i..]);
                Vector256.Narrow(first >>> 16, second >>> 16).CopyTo(odd[i..]);
            }
        }

        int rest = 0;
        for (; i < pairs; i++)
        {
            even[i] = row[2 * i];
            odd[i] = row[(2 * i) + 1];
            rest |= even[i] | odd[i];
        }

        return (ushort)(rest | BitsOf(bits.AsUInt16()));
    }

    /// <summary>Splits a row into its photosites 0, 3, 6 …, 1, 4, 7 … and 2, 5, 8 ….</summary>
    /// <param name="row">Photosites, a multiple of three of them.</param>
    /// <param name="first">Destination of the first of each three, a third of the row's length.</param>
    /// <param name="second">Destination of the second ones.</param>
    /// <param name="third">Destination of the third ones.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void SplitInThree(ReadOnlySpan<ushort> row, Span<ushort> first, Span<ushort> second, Span<ushort> third)
    {
        int i = 0;
        if (Avx2.IsSupported)
        {
            // Each eight of a destination lie in three vectors, in lanes that do not overlap: two blends gather them, one shuffle puts them in order.
            const byte Lanes036 = 0b01001001;
            const byte Lanes147 = 0b10010010;
            const byte Lanes25 = 0b00100100;
            (Vector256<byte> orderOfFirst, Vector256<byte> orderOfSecond, Vector256<byte> orderOfThird) = (OrderOfFirst, OrderOfSecond, OrderOfThird);
            ref ushort from = ref MemoryMarshal.GetReference(row[..(3 * first.Length)]);
            ref ushort toFirst = ref MemoryMarshal.GetReference(first), toSecond = ref MemoryMarshal.GetReference(second[..first.Length]), toThird = ref MemoryMarshal.GetReference(third[..first.Length]);
            for (; i <= first.Length - Vector256<ushort>.Count; i += Vector256<ushort>.Count)
            {
                (nuint to, nuint at) = ((nuint)i, (nuint)(3 * i));
                Vector256<ushort> a = Vector256.Create(Vector128.LoadUnsafe(ref from, at), Vector128.LoadUnsafe(ref from, at + 24));
                Vector256<ushort> b = Vector256.Create(Vector128.LoadUnsafe(ref from, at + 8), Vector128.LoadUnsafe(ref from, at + 32));
                Vector256<ushort> c = Vector256.Create(Vector128.LoadUnsafe(ref from, at + 16), Vector128.LoadUnsafe(ref from, at + 40));
                Ordered(Avx2.Blend(Avx2.Blend(a, b, Lanes147), c, Lanes25), orderOfFirst).StoreUnsafe(ref toFirst, to);
                Ordered(Avx2.Blend(Avx2.Blend(a, b, Lanes25), c, Lanes036), orderOfSecond).StoreUnsafe(ref toSecond, to);
                Ordered(Avx2.Blend(Avx2.Blend(a, b, Lanes036), c, Lanes147), orderOfThird).StoreUnsafe(ref toThird, to);
            }
        }

        for (; i < first.Length; i++)
        {
            first[i] = row[3 * i];
            second[i] = row[(3 * i) + 1];
            third[i] = row[(3 * i) + 2];
        }
    }

    /// <summary>Takes every n-th photosite of a row.</summary>
    /// <param name="row">Photosites, from the first one taken on.</param>
    /// <param name="step">Photosites from one that is taken to the next.</param>
    /// <param name="destination">Destination; its length is how many are taken.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Gather(ReadOnlySpan<ushort> row, int step, Span<ushort> destination)
    {
        for (int i = 0, at = 0; i < destination.Length; i++, at += step)
        {
            destination[i] = row[at];
        }
    }

    /// <summary>Copies a row of a single channel.</summary>
    /// <param name="row">Photosites.</param>
    /// <param name="destination">Destination, as long.</param>
    /// <returns>All bits that any of the values has.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static ushort Copy(ReadOnlySpan<ushort> row, Span<ushort> destination)
    {
        row.CopyTo(destination);
        return BitsOf(row);
    }

    /// <summary>All bits that any of the values has.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static ushort BitsOf(ReadOnlySpan<ushort> row)
    {
        Vector256<ushort> bits = default;
        int i = 0;
        for (; i <= row.Length - Vector256<ushort>.Count; i += Vector256<ushort>.Count)
        {
            bits |= Vector256.Create(row[i..]);
        }

        int rest = 0;
        for (; i < row.Length; i++)
        {
            rest |= row[i];
        }

        return (ushort)(rest | BitsOf(bits));
    }

    /// <summary>The order of eight values of 16 bits, byte by byte, in both halves.</summary>
    private static Vector256<byte> Order(params ReadOnlySpan<byte> lanes)
    {
        Span<byte> bytes = stackalloc byte[Vector128<byte>.Count];
        for (int i = 0; i < lanes.Length; i++)
        {
            (bytes[2 * i], bytes[(2 * i) + 1]) = ((byte)(2 * lanes[i]), (byte)((2 * lanes[i]) + 1));
        }

        Vector128<byte> half = Vector128.Create<byte>(bytes);
        return Vector256.Create(half, half);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ushort> Ordered(Vector256<ushort> values, Vector256<byte> order) => Avx2.Shuffle(values.AsByte(), order).AsUInt16();

    private static int BitsOf(Vector256<ushort> values)
    {
        int bits = 0;
        for (int i = 0; i < Vector256<ushort>.Count; i++)
        {
            bits |= values[i];
        }

        return bits;
    }
}
