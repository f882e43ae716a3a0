using System.Runtime.CompilerServices;
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
