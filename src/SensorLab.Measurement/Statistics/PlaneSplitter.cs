using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SensorLab.Measurement.Statistics;

/// <summary>Takes the two channels of a mosaic's row apart.</summary>
internal static class PlaneSplitter
{
    /// <summary>Splits a row into its even and odd photosites.</summary>
    /// <param name="row">Photosites, an even number of them.</param>
    /// <param name="even">Destination of photosites 0, 2, 4 …, half the row's length.</param>
    /// <param name="odd">Destination of photosites 1, 3, 5 …, half the row's length.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Split(ReadOnlySpan<ushort> row, Span<ushort> even, Span<ushort> odd)
    {
        int pairs = row.Length / 2;
        ReadOnlySpan<uint> source = MemoryMarshal.Cast<ushort, uint>(row);
        int i = 0;
        if (Vector256.IsHardwareAccelerated && BitConverter.IsLittleEndian)
        {
            Vector256<uint> low = Vector256.Create(0xFFFFu);
            for (; i <= pairs - 16; i += 16)
            {
                Vector256<uint> first = Vector256.Create(source[i..]);
                Vector256<uint> second = Vector256.Create(source[(i + 8)..]);
                Vector256.Narrow(first & low, second & low).CopyTo(even[i..]);
                Vector256.Narrow(first >>> 16, second >>> 16).CopyTo(odd[i..]);
            }
        }

        for (; i < pairs; i++)
        {
            even[i] = row[2 * i];
            odd[i] = row[(2 * i) + 1];
        }
    }
}
