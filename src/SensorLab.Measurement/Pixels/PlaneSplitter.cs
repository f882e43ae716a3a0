using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SensorLab.Measurement.Pixels;

/// <summary>Takes a mosaic's row apart into its channels, and tells how large its values are.</summary>
internal static class PlaneSplitter
{
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
        if (Vector128.IsHardwareAccelerated)
        {
            // What an index beyond the vector names is zero: each destination is put together of what three vectors hold of it.
            const ushort None = ushort.MaxValue;
            for (; i <= first.Length - Vector128<ushort>.Count; i += Vector128<ushort>.Count)
            {
                Vector128<ushort> a = Vector128.Create(row[(3 * i)..]);
                Vector128<ushort> b = Vector128.Create(row[((3 * i) + 8)..]);
                Vector128<ushort> c = Vector128.Create(row[((3 * i) + 16)..]);
                (Vector128.Shuffle(a, Vector128.Create(0, 3, 6, None, None, None, None, None))
                    | Vector128.Shuffle(b, Vector128.Create(None, None, None, 1, 4, 7, None, None))
                    | Vector128.Shuffle(c, Vector128.Create(None, None, None, None, None, None, 2, 5))).CopyTo(first[i..]);
                (Vector128.Shuffle(a, Vector128.Create(1, 4, 7, None, None, None, None, None))
                    | Vector128.Shuffle(b, Vector128.Create(None, None, None, 2, 5, None, None, None))
                    | Vector128.Shuffle(c, Vector128.Create(None, None, None, None, None, 0, 3, 6))).CopyTo(second[i..]);
                (Vector128.Shuffle(a, Vector128.Create(2, 5, None, None, None, None, None, None))
                    | Vector128.Shuffle(b, Vector128.Create(None, None, 0, 3, 6, None, None, None))
                    | Vector128.Shuffle(c, Vector128.Create(None, None, None, None, None, 1, 4, 7))).CopyTo(third[i..]);
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
