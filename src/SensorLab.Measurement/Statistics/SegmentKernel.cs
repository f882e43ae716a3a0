using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorLab.Measurement.Statistics;

/// <summary>The inner loop of all statistics: one frame's row inside one block, against the sum of the frames before it.</summary>
/// <remarks>
/// Every sum is a sum of whole numbers below 2⁵³ held in doubles, hence exact: the result is the same for any order
/// and any vector width.
/// </remarks>
internal static class SegmentKernel
{
    /// <summary>Adds one frame's segment to the sums.</summary>
    /// <param name="values">The frame's values in DN.</param>
    /// <param name="earlier">Sum of the earlier frames' values at each site; the frame is added to it.</param>
    /// <param name="columnSums">Sum down each column so far; the segment is added to it.</param>
    /// <returns>Sum of the values, of their squares, and of their products with the earlier frames' sum.</returns>
    public static SegmentSums Add(ReadOnlySpan<ushort> values, Span<double> earlier, Span<double> columnSums)
    {
        earlier = earlier[..values.Length];
        columnSums = columnSums[..values.Length];
        return Avx.IsSupported ? AddVectors(values, earlier, columnSums) : AddScalars(values, earlier, columnSums, 0, default);
    }

    internal static SegmentSums AddScalars(ReadOnlySpan<ushort> values, Span<double> earlier, Span<double> columnSums, int from, SegmentSums sums)
    {
        (double sum, double squares, double products) = sums;
        for (int i = from; i < values.Length; i++)
        {
            double value = values[i];
            sum += value;
            squares += value * value;
            products += value * earlier[i];
            earlier[i] += value;
            columnSums[i] += value;
        }

        return new SegmentSums(sum, squares, products);
    }

    private static SegmentSums AddVectors(ReadOnlySpan<ushort> values, Span<double> earlier, Span<double> columnSums)
    {
        ref ushort value = ref MemoryMarshal.GetReference(values);
        ref double before = ref MemoryMarshal.GetReference(earlier);
        ref double column = ref MemoryMarshal.GetReference(columnSums);
        Vector256<double> sum = Vector256<double>.Zero;
        Vector256<double> squares = Vector256<double>.Zero;
        Vector256<double> products = Vector256<double>.Zero;
        int i = 0;
        for (; i <= values.Length - 8; i += 8)
        {
            Vector128<ushort> eight = Vector128.LoadUnsafe(ref value, (nuint)i);
            AddFour(Avx.ConvertToVector256Double(Vector128.WidenLower(eight).AsInt32()), ref before, ref column, (nuint)i, ref sum, ref squares, ref products);
            AddFour(Avx.ConvertToVector256Double(Vector128.WidenUpper(eight).AsInt32()), ref before, ref column, (nuint)i + 4, ref sum, ref squares, ref products);
        }

        return AddScalars(values, earlier, columnSums, i, new SegmentSums(Vector256.Sum(sum), Vector256.Sum(squares), Vector256.Sum(products)));
    }

    private static void AddFour(
        Vector256<double> four,
        ref double before,
        ref double column,
        nuint at,
        ref Vector256<double> sum,
        ref Vector256<double> squares,
        ref Vector256<double> products)
    {
        Vector256<double> earlier = Vector256.LoadUnsafe(ref before, at);
        sum += four;
        squares += four * four;
        products += four * earlier;
        (earlier + four).StoreUnsafe(ref before, at);
        (Vector256.LoadUnsafe(ref column, at) + four).StoreUnsafe(ref column, at);
    }
}
