using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorLab.Pixels.Kernels;

/// <summary><see cref="PairKernel.AddRows"/> in vectors of 512 bits, for processors that have them: the same exact sums in half the steps.</summary>
/// <remarks>A block is two such vectors wide, too short for the processor to foresee the next rows: they are asked for ahead.</remarks>
internal static class WidePairKernel
{
    /// <summary>Vectors of ones behind as many zeros: from some place on, a vector that passes only its last lanes.</summary>
    private static readonly ushort[] LastLanes =
        [.. Enumerable.Repeat(ushort.MinValue, Vector512<ushort>.Count), .. Enumerable.Repeat(ushort.MaxValue, Vector512<ushort>.Count)];

    /// <summary>Whether this processor has such vectors and a segment fills one.</summary>
    /// <param name="columns">Values of the segment.</param>
    public static bool CanAddRows(int columns) => Vector512.IsHardwareAccelerated && Avx512BW.IsSupported && columns >= Vector512<ushort>.Count;

    /// <summary>Adds four rows of both frames' segment, which <see cref="PairKernel.CanAddRows"/> and <see cref="CanAddRows"/> have to allow.</summary>
    /// <param name="first">The first frame's values in DN.</param>
    /// <param name="second">The second frame's.</param>
    /// <param name="stride">Values from one row to the next.</param>
    /// <param name="firstColumns">The first frame's sum down each column.</param>
    /// <param name="secondColumns">The second frame's.</param>
    /// <param name="lanes">The block's sums so far.</param>
    public static (Vector128<int> First, Vector128<int> Second) AddRows(
        ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, int stride, Span<int> firstColumns, Span<int> secondColumns, ref PairLanes lanes)
    {
        nuint columns = (nuint)firstColumns.Length;
        int length = ((PairKernel.RowsAtOnce - 1) * stride) + firstColumns.Length;
        ref ushort a0 = ref MemoryMarshal.GetReference(first[..length]), b0 = ref MemoryMarshal.GetReference(second[..length]);
        ref ushort a1 = ref Unsafe.Add(ref a0, stride), a2 = ref Unsafe.Add(ref a1, stride), a3 = ref Unsafe.Add(ref a2, stride);
        ref ushort b1 = ref Unsafe.Add(ref b0, stride), b2 = ref Unsafe.Add(ref b1, stride), b3 = ref Unsafe.Add(ref b2, stride);
        ref int columnsOfA = ref MemoryMarshal.GetReference(firstColumns), columnsOfB = ref MemoryMarshal.GetReference(secondColumns[..firstColumns.Length]);
        Vector512<int> sumA0 = default, sumA1 = default, sumA2 = default, sumA3 = default, sumB0 = default, sumB1 = default, sumB2 = default, sumB3 = default;
        Vector512<ulong> squaresA = default, squaresB = default, products = default;
        Vector512<ushort> lowest = Vector512<ushort>.AllBitsSet, highest = default, mask = Vector512<ushort>.AllBitsSet, one = Vector512<ushort>.One;
        for (nuint next = 0; next < columns; next += (nuint)Vector512<ushort>.Count)
        {
            nuint i = Start(next, columns, ref mask);
            nuint ahead = i + (nuint)(PairKernel.RowsAtOnce * stride);
            AskFor(ref a0, ref a1, ref a2, ref a3, ahead);
            AskFor(ref b0, ref b1, ref b2, ref b3, ahead);
            Vector512<ushort> x0 = Vector512.LoadUnsafe(ref a0, i), x1 = Vector512.LoadUnsafe(ref a1, i), x2 = Vector512.LoadUnsafe(ref a2, i), x3 = Vector512.LoadUnsafe(ref a3, i);
            Vector512<ushort> y0 = Vector512.LoadUnsafe(ref b0, i), y1 = Vector512.LoadUnsafe(ref b1, i), y2 = Vector512.LoadUnsafe(ref b2, i), y3 = Vector512.LoadUnsafe(ref b3, i);
            Vector512<ushort> s0 = x0 + y0, s1 = x1 + y1, s2 = x2 + y2, s3 = x3 + y3;
            lowest = Vector512.Min(lowest, Vector512.Min(Vector512.Min(s0, s1), Vector512.Min(s2, s3)));
            highest = Vector512.Max(highest, Vector512.Max(Vector512.Max(s0, s1), Vector512.Max(s2, s3)));
            (x0, x1, x2, x3) = (x0 & mask, x1 & mask, x2 & mask, x3 & mask);
            (y0, y1, y2, y3) = (y0 & mask, y1 & mask, y2 & mask, y3 & mask);
            squaresA += Widened(PairedProducts(x0, x0) + PairedProducts(x1, x1) + (PairedProducts(x2, x2) + PairedProducts(x3, x3)));
            squaresB += Widened(PairedProducts(y0, y0) + PairedProducts(y1, y1) + (PairedProducts(y2, y2) + PairedProducts(y3, y3)));
            products += Widened(PairedProducts(x0, y0) + PairedProducts(x1, y1) + (PairedProducts(x2, y2) + PairedProducts(x3, y3)));
            (sumA0, sumA1, sumA2, sumA3) = (sumA0 + PairedProducts(x0, one), sumA1 + PairedProducts(x1, one), sumA2 + PairedProducts(x2, one), sumA3 + PairedProducts(x3, one));
            (sumB0, sumB1, sumB2, sumB3) = (sumB0 + PairedProducts(y0, one), sumB1 + PairedProducts(y1, one), sumB2 + PairedProducts(y2, one), sumB3 + PairedProducts(y3, one));
            AddTo(ref columnsOfA, i, x0 + x1 + (x2 + x3));
            AddTo(ref columnsOfB, i, y0 + y1 + (y2 + y3));
        }

        lanes.FirstSquares += squaresA.GetLower() + squaresA.GetUpper();
        lanes.SecondSquares += squaresB.GetLower() + squaresB.GetUpper();
        lanes.Products += products.GetLower() + products.GetUpper();
        lanes.Lowest = Vector256.Min(lanes.Lowest, Vector256.Min(lowest.GetLower(), lowest.GetUpper()));
        lanes.Highest = Vector256.Max(lanes.Highest, Vector256.Max(highest.GetLower(), highest.GetUpper()));
        return (SumsOf(sumA0, sumA1, sumA2, sumA3), SumsOf(sumB0, sumB1, sumB2, sumB3));
    }

    /// <summary>Asks for what lies so far behind four places; the memory need not be there.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static unsafe void AskFor(ref ushort place0, ref ushort place1, ref ushort place2, ref ushort place3, nuint ahead)
    {
        Sse.Prefetch0(Unsafe.AsPointer(ref Unsafe.Add(ref place0, ahead)));
        Sse.Prefetch0(Unsafe.AsPointer(ref Unsafe.Add(ref place1, ahead)));
        Sse.Prefetch0(Unsafe.AsPointer(ref Unsafe.Add(ref place2, ahead)));
        Sse.Prefetch0(Unsafe.AsPointer(ref Unsafe.Add(ref place3, ahead)));
    }

    /// <summary>Where the next vector starts: the last one may begin inside the one before it, whose lanes the mask then takes out.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static nuint Start(nuint next, nuint columns, ref Vector512<ushort> mask)
    {
        if (next + (nuint)Vector512<ushort>.Count <= columns)
        {
            return next;
        }

        mask = Vector512.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(LastLanes), columns - next);
        return columns - (nuint)Vector512<ushort>.Count;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> SumsOf(Vector512<int> v0, Vector512<int> v1, Vector512<int> v2, Vector512<int> v3) => PairKernel.SumsOf(
        v0.GetLower() + v0.GetUpper(), v1.GetLower() + v1.GetUpper(), v2.GetLower() + v2.GetUpper(), v3.GetLower() + v3.GetUpper());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddTo(ref int sums, nuint at, Vector512<ushort> values)
    {
        (Vector512<uint> low, Vector512<uint> high) = Vector512.Widen(values);
        (Vector512.LoadUnsafe(ref sums, at) + low.AsInt32()).StoreUnsafe(ref sums, at);
        nuint upper = at + (nuint)Vector512<int>.Count;
        (Vector512.LoadUnsafe(ref sums, upper) + high.AsInt32()).StoreUnsafe(ref sums, upper);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<int> PairedProducts(Vector512<ushort> a, Vector512<ushort> b) =>
        Avx512BW.MultiplyAddAdjacent(a.AsInt16(), b.AsInt16());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<ulong> Widened(Vector512<int> sums) =>
        (sums.AsUInt64() & Vector512.Create((ulong)uint.MaxValue)) + (sums.AsUInt64() >>> 32);
}
