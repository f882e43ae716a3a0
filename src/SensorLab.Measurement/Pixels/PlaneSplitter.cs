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

    /// <summary>Takes every n-th photosite of a row.</summary>
    /// <param name="row">Photosites, from the first one taken on.</param>
    /// <param name="step">Photosites from one that is taken to the next.</param>
    /// <param name="destination">Destination; its length is how many are taken.</param>
    /// <returns>All bits that any of the values has.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static ushort Gather(ReadOnlySpan<ushort> row, int step, Span<ushort> destination)
    {
        int bits = 0;
        int at = 0;
        for (int i = 0; i < destination.Length; i++, at += step)
        {
            ushort value = row[at];
            destination[i] = value;
            bits |= value;
        }

        return (ushort)bits;
    }

    /// <summary>Copies a row of a single channel.</summary>
    /// <param name="row">Photosites.</param>
    /// <param name="destination">Destination, as long.</param>
    /// <returns>All bits that any of the values has.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static ushort Copy(ReadOnlySpan<ushort> row, Span<ushort> destination)
    {
        row.CopyTo(destination);
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
