using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorLab.Measurement.Statistics;

/// <summary>The inner loop for levels of two frames, the usual case: both frames' rows inside one block in one sweep of whole numbers.</summary>
/// <remarks>
/// The multiplication used takes signed numbers of 16 bits, hence codes below 2¹⁵; a sum of two products is then below
/// 2³¹. All sums are exact, as are those of <see cref="SegmentKernel"/>, so that it does not show which of them ran.
/// </remarks>
internal static class PairKernel
{
    /// <summary>Values a segment has at most: more could overflow the sums of 32 bits.</summary>
    private const int MostValues = 1 << 15;

    private const ushort TopBit = 0x8000;

    /// <summary>Rows that <see cref="TryAddRows"/> takes at once: four sums of two products of codes below 2¹⁴ stay below 2³¹.</summary>
    public const int RowsAtOnce = 4;

    private const ushort TopTwoBits = 0xC000;

    /// <summary>Adds both frames' segment to the sums, where this processor and these values allow it.</summary>
    /// <param name="first">The first frame's values in DN.</param>
    /// <param name="second">The second frame's values in DN, as many.</param>
    /// <param name="firstColumns">The first frame's sum down each column so far; the segment is added to it.</param>
    /// <param name="secondColumns">The same of the second frame.</param>
    /// <param name="sums">The segment's sums.</param>
    /// <returns>False where nothing was done: a value is 2¹⁵ or more, the segment is too long, or the processor lacks AVX2.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static bool TryAdd(ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, Span<int> firstColumns, Span<int> secondColumns, out PairSums sums)
    {
        sums = default;
        second = second[..first.Length];
        firstColumns = firstColumns[..first.Length];
        secondColumns = secondColumns[..first.Length];
        if (!Avx2.IsSupported || first.Length > MostValues || !AllBelowTopBit(first, second))
        {
            return false;
        }

        Vector256<int> firstSum = default, secondSum = default;
        Vector256<ulong> firstSquares = default, secondSquares = default, products = default;
        Vector256<ushort> lowest = Vector256<ushort>.AllBitsSet, highest = default;
        int i = 0;
        for (; i <= first.Length - Vector256<ushort>.Count; i += Vector256<ushort>.Count)
        {
            Vector256<ushort> a = Vector256.Create(first[i..]);
            Vector256<ushort> b = Vector256.Create(second[i..]);
            firstSum += PairedProducts(a, Vector256<ushort>.One);
            secondSum += PairedProducts(b, Vector256<ushort>.One);
            firstSquares += Widened(PairedProducts(a, a));
            secondSquares += Widened(PairedProducts(b, b));
            products += Widened(PairedProducts(a, b));
            lowest = Vector256.Min(lowest, a + b);
            highest = Vector256.Max(highest, a + b);
            AddTo(firstColumns[i..], a);
            AddTo(secondColumns[i..], b);
        }

        // No vector, no extremes yet: the start values are beyond any sum of two codes.
        (int low, int high) = (LowestOf(lowest), HighestOf(highest));
        sums = AddScalars(first, second, firstColumns, secondColumns, i, new PairSums(
            new SegmentSums(Vector256.Sum(firstSum), Vector256.Sum(firstSquares), 0),
            new SegmentSums(Vector256.Sum(secondSum), Vector256.Sum(secondSquares), Vector256.Sum(products)),
            low,
            high));
        return true;
    }

    /// <summary>Adds four rows of both frames' segment at once, where this processor and these values allow it.</summary>
    /// <param name="first">The first frame's values in DN from the segment's first, rows × <paramref name="stride"/>.</param>
    /// <param name="second">The second frame's values, as many.</param>
    /// <param name="stride">Values from one row to the next.</param>
    /// <param name="columns">Values of the segment in a row.</param>
    /// <param name="firstColumns">The first frame's sum down each column so far; the rows are added to it.</param>
    /// <param name="secondColumns">The same of the second frame.</param>
    /// <param name="rowSums">Becomes the sum of each row, the first frame's four and then the second's.</param>
    /// <param name="sums">The four rows' sums.</param>
    /// <returns>False where nothing was done: a value is 2¹⁴ or more, the segment is too long, or the processor lacks AVX2.</returns>
    public static bool TryAddRows(
        ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, int stride, int columns, Span<int> firstColumns, Span<int> secondColumns, Span<int> rowSums, out PairSums sums)
    {
        sums = default;
        if (!Avx2.IsSupported || columns > MostValues)
        {
            return false;
        }

        int length = ((RowsAtOnce - 1) * stride) + columns;
        ref ushort a = ref MemoryMarshal.GetReference(first[..length]);
        ref ushort b = ref MemoryMarshal.GetReference(second[..length]);
        if (!FitFourRows(ref a, ref b, (nuint)stride, (nuint)columns))
        {
            return false;
        }

        AddFourRows(ref a, ref b, (nuint)stride, firstColumns[..columns], secondColumns[..columns], rowSums, out sums);
        return true;
    }

    private static bool FitFourRows(ref ushort a, ref ushort b, nuint stride, nuint columns)
    {
        Vector256<ushort> bits = default;
        nuint vectors = columns - (columns % (nuint)Vector256<ushort>.Count);
        int rest = 0;
        for (nuint start = 0; start < RowsAtOnce * stride; start += stride)
        {
            nuint i = 0;
            for (; i < vectors; i += (nuint)Vector256<ushort>.Count)
            {
                bits |= Vector256.LoadUnsafe(ref a, start + i) | Vector256.LoadUnsafe(ref b, start + i);
            }

            for (; i < columns; i++)
            {
                rest |= Unsafe.Add(ref a, start + i) | Unsafe.Add(ref b, start + i);
            }
        }

        return (bits & Vector256.Create(TopTwoBits)) == default && (rest & TopTwoBits) == 0;
    }

    /// <summary>The sweep itself; its references were checked by the caller.</summary>
    private static void AddFourRows(
        ref ushort a, ref ushort b, nuint stride, Span<int> firstColumns, Span<int> secondColumns, Span<int> rowSums, out PairSums sums)
    {
        ref ushort a1 = ref Unsafe.Add(ref a, stride), a2 = ref Unsafe.Add(ref a1, stride), a3 = ref Unsafe.Add(ref a2, stride);
        ref ushort b1 = ref Unsafe.Add(ref b, stride), b2 = ref Unsafe.Add(ref b1, stride), b3 = ref Unsafe.Add(ref b2, stride);
        ref int columnsOfA = ref MemoryMarshal.GetReference(firstColumns), columnsOfB = ref MemoryMarshal.GetReference(secondColumns);
        Vector256<int> sumA0 = default, sumA1 = default, sumA2 = default, sumA3 = default, sumB0 = default, sumB1 = default, sumB2 = default, sumB3 = default;
        Vector256<ulong> squaresA = default, squaresB = default, products = default;
        Vector256<ushort> lowest = Vector256<ushort>.AllBitsSet, highest = default;
        Vector256<ushort> one = Vector256<ushort>.One;
        nuint columns = (nuint)firstColumns.Length;
        nuint i = 0;
        for (; i + (nuint)Vector256<ushort>.Count <= columns; i += (nuint)Vector256<ushort>.Count)
        {
            Vector256<ushort> x0 = Vector256.LoadUnsafe(ref a, i), x1 = Vector256.LoadUnsafe(ref a1, i), x2 = Vector256.LoadUnsafe(ref a2, i), x3 = Vector256.LoadUnsafe(ref a3, i);
            Vector256<ushort> y0 = Vector256.LoadUnsafe(ref b, i), y1 = Vector256.LoadUnsafe(ref b1, i), y2 = Vector256.LoadUnsafe(ref b2, i), y3 = Vector256.LoadUnsafe(ref b3, i);
            (sumA0, sumA1, sumA2, sumA3) = (sumA0 + PairedProducts(x0, one), sumA1 + PairedProducts(x1, one), sumA2 + PairedProducts(x2, one), sumA3 + PairedProducts(x3, one));
            (sumB0, sumB1, sumB2, sumB3) = (sumB0 + PairedProducts(y0, one), sumB1 + PairedProducts(y1, one), sumB2 + PairedProducts(y2, one), sumB3 + PairedProducts(y3, one));
            squaresA += Widened(PairedProducts(x0, x0) + PairedProducts(x1, x1) + (PairedProducts(x2, x2) + PairedProducts(x3, x3)));
            squaresB += Widened(PairedProducts(y0, y0) + PairedProducts(y1, y1) + (PairedProducts(y2, y2) + PairedProducts(y3, y3)));
            products += Widened(PairedProducts(x0, y0) + PairedProducts(x1, y1) + (PairedProducts(x2, y2) + PairedProducts(x3, y3)));
            Vector256<ushort> s0 = x0 + y0, s1 = x1 + y1, s2 = x2 + y2, s3 = x3 + y3;
            lowest = Vector256.Min(lowest, Vector256.Min(Vector256.Min(s0, s1), Vector256.Min(s2, s3)));
            highest = Vector256.Max(highest, Vector256.Max(Vector256.Max(s0, s1), Vector256.Max(s2, s3)));
            AddTo(ref columnsOfA, i, x0 + x1 + (x2 + x3));
            AddTo(ref columnsOfB, i, y0 + y1 + (y2 + y3));
        }

        Vector128<int> rowsOfA = SumsOf(sumA0, sumA1, sumA2, sumA3), rowsOfB = SumsOf(sumB0, sumB1, sumB2, sumB3);
        (long squareSumA, long squareSumB, long productSum) = ((long)Vector256.Sum(squaresA), (long)Vector256.Sum(squaresB), (long)Vector256.Sum(products));
        (int low, int high) = (LowestOf(lowest), HighestOf(highest));
        rowsOfA.CopyTo(rowSums);
        rowsOfB.CopyTo(rowSums[RowsAtOnce..]);
        for (; i < columns; i++)
        {
            nuint at = i;
            for (int row = 0; row < RowsAtOnce; row++, at += stride)
            {
                int x = Unsafe.Add(ref a, at), y = Unsafe.Add(ref b, at);
                firstColumns[(int)i] += x;
                secondColumns[(int)i] += y;
                rowSums[row] += x;
                rowSums[RowsAtOnce + row] += y;
                (squareSumA, squareSumB, productSum) = (squareSumA + (x * x), squareSumB + (y * y), productSum + (x * y));
                (low, high) = (Math.Min(low, x + y), Math.Max(high, x + y));
            }
        }

        long sumA = 0, sumB = 0;
        for (int row = 0; row < RowsAtOnce; row++)
        {
            (sumA, sumB) = (sumA + rowSums[row], sumB + rowSums[RowsAtOnce + row]);
        }

        sums = new PairSums(new SegmentSums(sumA, squareSumA, 0), new SegmentSums(sumB, squareSumB, productSum), low, high);
    }

    /// <summary>The sums of four vectors, in their order.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<int> SumsOf(Vector256<int> v0, Vector256<int> v1, Vector256<int> v2, Vector256<int> v3)
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

    private static PairSums AddScalars(
        ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, Span<int> firstColumns, Span<int> secondColumns, int from, PairSums sums)
    {
        for (int i = from; i < first.Length; i++)
        {
            double a = first[i];
            double b = second[i];
            firstColumns[i] += first[i];
            secondColumns[i] += second[i];
            sums = new PairSums(
                sums.First + new SegmentSums(a, a * a, 0),
                sums.Second + new SegmentSums(b, b * b, a * b),
                Math.Min(sums.LowestStack, first[i] + second[i]),
                Math.Max(sums.HighestStack, first[i] + second[i]));
        }

        return sums;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool AllBelowTopBit(ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second)
    {
        Vector256<ushort> bits = default;
        int i = 0;
        for (; i <= first.Length - Vector256<ushort>.Count; i += Vector256<ushort>.Count)
        {
            bits |= Vector256.Create(first[i..]) | Vector256.Create(second[i..]);
        }

        int rest = 0;
        for (; i < first.Length; i++)
        {
            rest |= first[i] | second[i];
        }

        return (bits & Vector256.Create(TopBit)) == default && rest < TopBit;
    }

    /// <summary>Products of the values at one site, each with its neighbour's added.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> PairedProducts(Vector256<ushort> a, Vector256<ushort> b) =>
        Avx2.MultiplyAddAdjacent(a.AsInt16(), b.AsInt16());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<ulong> Widened(Vector256<int> sums) =>
        (sums.AsUInt64() & Vector256.Create((ulong)uint.MaxValue)) + (sums.AsUInt64() >>> 32);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddTo(Span<int> sums, Vector256<ushort> values)
    {
        (Vector256<uint> low, Vector256<uint> high) = Vector256.Widen(values);
        (Vector256.Create<int>(sums) + low.AsInt32()).CopyTo(sums);
        Span<int> upper = sums[Vector256<int>.Count..];
        (Vector256.Create<int>(upper) + high.AsInt32()).CopyTo(upper);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int LowestOf(Vector256<ushort> values) =>
        Sse41.MinHorizontal(Vector128.Min(values.GetLower(), values.GetUpper())).ToScalar();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int HighestOf(Vector256<ushort> values) => ushort.MaxValue - LowestOf(~values);
}
