using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorLab.Pixels.Kernels;

/// <summary>The inner loop for levels of two frames, the usual case: both frames' rows inside one block in one sweep of whole numbers.</summary>
/// <remarks>
/// The multiplication used takes signed numbers of 16 bits and adds two products: codes below 2¹⁵ a row, below 2¹⁴ where
/// four rows are added before they are widened. All sums are exact, as are those of <see cref="SegmentKernel"/>, so that
/// it does not show which of them ran.
/// </remarks>
internal static class PairKernel
{
    /// <summary>Rows that <see cref="AddRows"/> takes.</summary>
    public const int RowsAtOnce = 4;

    /// <summary>Values a segment has at most: sums along a row stay below 2³¹.</summary>
    private const int MostValues = 1 << 15;

    private const int BitsOfARow = 15;
    private const int BitsOfRows = 14;

    /// <summary>Vectors of ones behind as many zeros: from some place on, a vector that passes only its last lanes.</summary>
    private static ReadOnlySpan<ushort> LastLanes =>
    [
        0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF, 0xFFFF,
    ];

    /// <summary>Whether this processor and such values allow one row at a time.</summary>
    /// <param name="bits">All bits that any of the values has.</param>
    /// <param name="columns">Values of the segment.</param>
    public static bool CanAddRow(int bits, int columns) => Avx2.IsSupported && bits >> BitsOfARow == 0 && columns is >= 16 and <= MostValues;

    /// <summary>Whether this processor and such values allow four rows at a time.</summary>
    /// <param name="bits">All bits that any of the values has.</param>
    /// <param name="columns">Values of the segment.</param>
    public static bool CanAddRows(int bits, int columns) => CanAddRow(bits, columns) && bits >> BitsOfRows == 0;

    /// <summary>Adds a row of both frames' segment, which <see cref="CanAddRow"/> has to allow.</summary>
    /// <param name="first">The first frame's values in DN.</param>
    /// <param name="second">The second frame's values in DN, as many.</param>
    /// <param name="firstColumns">The first frame's sum down each column so far; the row is added to it.</param>
    /// <param name="secondColumns">The same of the second frame.</param>
    /// <param name="lanes">The block's sums so far; the row is added to them.</param>
    /// <returns>Sum of the first frame's row and of the second's.</returns>
    public static (int First, int Second) AddRow(
        ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, Span<int> firstColumns, Span<int> secondColumns, ref PairLanes lanes)
    {
        nuint columns = (nuint)first.Length;
        ref ushort a = ref MemoryMarshal.GetReference(first), b = ref MemoryMarshal.GetReference(second[..first.Length]);
        ref int columnsOfA = ref MemoryMarshal.GetReference(firstColumns[..first.Length]), columnsOfB = ref MemoryMarshal.GetReference(secondColumns[..first.Length]);
        Vector256<int> sumA = default, sumB = default;
        (Vector256<ulong> squaresA, Vector256<ulong> squaresB, Vector256<ulong> products) = (lanes.FirstSquares, lanes.SecondSquares, lanes.Products);
        (Vector256<ushort> lowest, Vector256<ushort> highest) = (lanes.Lowest, lanes.Highest);
        Vector256<ushort> mask = Vector256<ushort>.AllBitsSet;
        for (nuint next = 0; next < columns; next += (nuint)Vector256<ushort>.Count)
        {
            nuint i = Start(next, columns, ref mask);
            Vector256<ushort> x = Vector256.LoadUnsafe(ref a, i), y = Vector256.LoadUnsafe(ref b, i);
            (lowest, highest) = (Vector256.Min(lowest, x + y), Vector256.Max(highest, x + y));
            (x, y) = (x & mask, y & mask);
            (sumA, sumB) = (sumA + PairedProducts(x, Vector256<ushort>.One), sumB + PairedProducts(y, Vector256<ushort>.One));
            squaresA += Widened(PairedProducts(x, x));
            squaresB += Widened(PairedProducts(y, y));
            products += Widened(PairedProducts(x, y));
            AddTo(ref columnsOfA, i, x);
            AddTo(ref columnsOfB, i, y);
        }

        (lanes.FirstSquares, lanes.SecondSquares, lanes.Products) = (squaresA, squaresB, products);
        (lanes.Lowest, lanes.Highest) = (lowest, highest);
        return (Vector256.Sum(sumA), Vector256.Sum(sumB));
    }

    /// <summary>Adds four rows of both frames' segment, which <see cref="CanAddRows"/> has to allow.</summary>
    /// <param name="first">The first frame's values in DN from the segment's first, rows × <paramref name="stride"/>.</param>
    /// <param name="second">The second frame's values, as many.</param>
    /// <param name="stride">Values from one row to the next.</param>
    /// <param name="firstColumns">The first frame's sum down each column of the segment so far; the rows are added to it.</param>
    /// <param name="secondColumns">The same of the second frame.</param>
    /// <param name="lanes">The block's sums so far; the rows are added to them.</param>
    /// <returns>Sums of the first frame's four rows and of the second's.</returns>
    public static (Vector128<int> First, Vector128<int> Second) AddRows(
        ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, int stride, Span<int> firstColumns, Span<int> secondColumns, ref PairLanes lanes) => WidePairKernel.CanAddRows(firstColumns.Length)
            ? WidePairKernel.AddRows(first, second, stride, firstColumns, secondColumns, ref lanes)
            : AddNarrowRows(first, second, stride, firstColumns, secondColumns, ref lanes);

    /// <summary><see cref="AddRows"/> in vectors of 256 bits, which every processor has that may come here.</summary>
    /// <param name="first">The first frame's values in DN.</param>
    /// <param name="second">The second frame's.</param>
    /// <param name="stride">Values from one row to the next.</param>
    /// <param name="firstColumns">The first frame's sum down each column.</param>
    /// <param name="secondColumns">The second frame's.</param>
    /// <param name="lanes">The block's sums so far.</param>
    internal static (Vector128<int> First, Vector128<int> Second) AddNarrowRows(
        ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, int stride, Span<int> firstColumns, Span<int> secondColumns, ref PairLanes lanes)
    {
        nuint columns = (nuint)firstColumns.Length;
        int length = ((RowsAtOnce - 1) * stride) + firstColumns.Length;
        ref ushort a0 = ref MemoryMarshal.GetReference(first[..length]), b0 = ref MemoryMarshal.GetReference(second[..length]);
        ref ushort a1 = ref Unsafe.Add(ref a0, stride), a2 = ref Unsafe.Add(ref a1, stride), a3 = ref Unsafe.Add(ref a2, stride);
        ref ushort b1 = ref Unsafe.Add(ref b0, stride), b2 = ref Unsafe.Add(ref b1, stride), b3 = ref Unsafe.Add(ref b2, stride);
        ref int columnsOfA = ref MemoryMarshal.GetReference(firstColumns), columnsOfB = ref MemoryMarshal.GetReference(secondColumns[..firstColumns.Length]);
        Vector256<int> sumA0 = default, sumA1 = default, sumA2 = default, sumA3 = default, sumB0 = default, sumB1 = default, sumB2 = default, sumB3 = default;
        (Vector256<ulong> squaresA, Vector256<ulong> squaresB, Vector256<ulong> products) = (lanes.FirstSquares, lanes.SecondSquares, lanes.Products);
        (Vector256<ushort> lowest, Vector256<ushort> highest) = (lanes.Lowest, lanes.Highest);
        Vector256<ushort> mask = Vector256<ushort>.AllBitsSet, one = Vector256<ushort>.One;
        for (nuint next = 0; next < columns; next += (nuint)Vector256<ushort>.Count)
        {
            nuint i = Start(next, columns, ref mask);
            Vector256<ushort> x0 = Vector256.LoadUnsafe(ref a0, i), x1 = Vector256.LoadUnsafe(ref a1, i), x2 = Vector256.LoadUnsafe(ref a2, i), x3 = Vector256.LoadUnsafe(ref a3, i);
            Vector256<ushort> y0 = Vector256.LoadUnsafe(ref b0, i), y1 = Vector256.LoadUnsafe(ref b1, i), y2 = Vector256.LoadUnsafe(ref b2, i), y3 = Vector256.LoadUnsafe(ref b3, i);
            Vector256<ushort> s0 = x0 + y0, s1 = x1 + y1, s2 = x2 + y2, s3 = x3 + y3;
            lowest = Vector256.Min(lowest, Vector256.Min(Vector256.Min(s0, s1), Vector256.Min(s2, s3)));
            highest = Vector256.Max(highest, Vector256.Max(Vector256.Max(s0, s1), Vector256.Max(s2, s3)));
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

        (lanes.FirstSquares, lanes.SecondSquares, lanes.Products) = (squaresA, squaresB, products);
        (lanes.Lowest, lanes.Highest) = (lowest, highest);
        return (SumsOf(sumA0, sumA1, sumA2, sumA3), SumsOf(sumB0, sumB1, sumB2, sumB3));
    }

    /// <summary>Where the next vector starts: the last one may begin inside the one before it, whose lanes the mask then takes out.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static nuint Start(nuint next, nuint columns, ref Vector256<ushort> mask)
    {
        if (next + (nuint)Vector256<ushort>.Count <= columns)
        {
            return next;
        }

        mask = Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(LastLanes), columns - next);
        return columns - (nuint)Vector256<ushort>.Count;
    }

    /// <summary>The sums of four vectors, in their order.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector128<int> SumsOf(Vector256<int> v0, Vector256<int> v1, Vector256<int> v2, Vector256<int> v3)
    {
        Vector256<int> halves = Avx2.HorizontalAdd(Avx2.HorizontalAdd(v0, v1), Avx2.HorizontalAdd(v2, v3));
        return halves.GetLower() + halves.GetUpper();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddTo(ref int sums, nuint at, Vector256<ushort> values)
    {
        (Vector256<uint> low, Vector256<uint> high) = Vector256.Widen(values);
        (Vector256.LoadUnsafe(ref sums, at) + low.AsInt32()).StoreUnsafe(ref sums, at);
        nuint upper = at + (nuint)Vector256<int>.Count;
        (Vector256.LoadUnsafe(ref sums, upper) + high.AsInt32()).StoreUnsafe(ref sums, upper);
    }

    /// <summary>Products of the values at one site, each with its neighbour's added.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> PairedProducts(Vector256<ushort> a, Vector256<ushort> b) =>
        Avx2.MultiplyAddAdjacent(a.AsInt16(), b.AsInt16());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ulong> Widened(Vector256<int> sums) =>
        (sums.AsUInt64() & Vector256.Create((ulong)uint.MaxValue)) + (sums.AsUInt64() >>> 32);
}
