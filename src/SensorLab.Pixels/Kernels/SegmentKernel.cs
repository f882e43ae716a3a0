using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorLab.Pixels.Kernels;

/// <summary>The inner loop of all statistics: one frame's row inside one block, against the sum of the frames before it.</summary>
/// <remarks>
/// Every sum is a sum of whole numbers below 2⁵³ held in doubles, hence exact: the result is the same for any order
/// and any vector width.
/// </remarks>
internal static class SegmentKernel
{
    /// <summary>Starts the sums with the first frame's segment.</summary>
    /// <param name="values">The frame's values in DN.</param>
    /// <param name="earlier">Becomes the frame's values.</param>
    /// <param name="columnSums">Sum down each column so far; the segment is added to it.</param>
    /// <returns>Sum of the values and of their squares.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static SegmentSums AddFirst(ReadOnlySpan<ushort> values, Span<double> earlier, Span<int> columnSums)
    {
        earlier = earlier[..values.Length];
        columnSums = columnSums[..values.Length];
        Vector256<double> sum = Vector256<double>.Zero;
        Vector256<double> squares = Vector256<double>.Zero;
        int i = 0;
        for (; Avx2.IsSupported && i <= values.Length - 8; i += 8)
        {
            (Vector256<double> low, Vector256<double> high) = Load(values, i);
            sum += low + high;
            squares = Vector256.MultiplyAddEstimate(low, low, Vector256.MultiplyAddEstimate(high, high, squares));
            low.CopyTo(earlier[i..]);
            high.CopyTo(earlier[(i + 4)..]);
            AddTo(columnSums, values, i);
        }

        earlier[i..].Clear();
        return AddScalars(values, earlier, columnSums, i, new SegmentSums(Vector256.Sum(sum), Vector256.Sum(squares), 0));
    }

    /// <summary>Adds a later frame's segment to the sums.</summary>
    /// <param name="values">The frame's values in DN.</param>
    /// <param name="earlier">Sum of the earlier frames' values at each site; the frame is added to it.</param>
    /// <param name="columnSums">Sum down each column so far; the segment is added to it.</param>
    /// <returns>Sum of the values, of their squares, and of their products with the earlier frames' sum.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static SegmentSums Add(ReadOnlySpan<ushort> values, Span<double> earlier, Span<int> columnSums)
    {
        earlier = earlier[..values.Length];
        columnSums = columnSums[..values.Length];
        Vector256<double> sum = Vector256<double>.Zero;
        Vector256<double> squares = Vector256<double>.Zero;
        Vector256<double> products = Vector256<double>.Zero;
        int i = 0;
        for (; Avx2.IsSupported && i <= values.Length - 8; i += 8)
        {
            (Vector256<double> low, Vector256<double> high) = Load(values, i);
            Vector256<double> lowEarlier = Vector256.Create<double>(earlier[i..]);
            Vector256<double> highEarlier = Vector256.Create<double>(earlier[(i + 4)..]);
            sum += low + high;
            squares = Vector256.MultiplyAddEstimate(low, low, Vector256.MultiplyAddEstimate(high, high, squares));
            products = Vector256.MultiplyAddEstimate(low, lowEarlier, Vector256.MultiplyAddEstimate(high, highEarlier, products));
            (lowEarlier + low).CopyTo(earlier[i..]);
            (highEarlier + high).CopyTo(earlier[(i + 4)..]);
            AddTo(columnSums, values, i);
        }

        return AddScalars(values, earlier, columnSums, i, new SegmentSums(Vector256.Sum(sum), Vector256.Sum(squares), Vector256.Sum(products)));
    }

    internal static SegmentSums AddScalars(ReadOnlySpan<ushort> values, Span<double> earlier, Span<int> columnSums, int from, SegmentSums sums)
    {
        (double sum, double squares, double products) = sums;
        for (int i = from; i < values.Length; i++)
        {
            double value = values[i];
            sum += value;
            squares += value * value;
            products += value * earlier[i];
            earlier[i] += value;
            columnSums[i] += values[i];
        }

        return new SegmentSums(sum, squares, products);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> Low, Vector256<double> High) Load(ReadOnlySpan<ushort> values, int at)
    {
        Vector128<ushort> eight = Vector128.Create<ushort>(values[at..]);
        return (
            Avx.ConvertToVector256Double(Vector128.WidenLower(eight).AsInt32()),
            Avx.ConvertToVector256Double(Vector128.WidenUpper(eight).AsInt32()));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddTo(Span<int> sums, ReadOnlySpan<ushort> values, int at) =>
        (Vector256.Create<int>(sums[at..]) + Avx2.ConvertToVector256Int32(Vector128.Create<ushort>(values[at..]))).CopyTo(sums[at..]);
}

/// <summary>Sums over a segment of one frame.</summary>
/// <param name="Sum">Sum of values in DN.</param>
/// <param name="Squares">Sum of squares in DN².</param>
/// <param name="Products">Sum of products with the earlier frames' sum in DN².</param>
internal readonly record struct SegmentSums(double Sum, double Squares, double Products)
{
    public static SegmentSums operator +(SegmentSums a, SegmentSums b) => new(a.Sum + b.Sum, a.Squares + b.Squares, a.Products + b.Products);
}
