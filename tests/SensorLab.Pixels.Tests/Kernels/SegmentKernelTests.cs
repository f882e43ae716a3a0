using CsCheck;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Tests.Kernels;

public sealed class SegmentKernelTests
{
    private static readonly Gen<(ushort[] Values, uint[] Earlier)> Segments =
        Gen.Int[0, 150].SelectMany(n => Gen.Select(Gen.UShort.Array[n], Gen.UInt[0, 4_000_000].Array[n]));

    [Fact]
    public void Add_AnySegment_GivesTheExactSumsOfWholeNumbers() => Segments.Sample(s =>
    {
        double[] earlier = Array.ConvertAll(s.Earlier, e => (double)e);
        int[] columns = new int[s.Values.Length];
        SegmentSums sums = SegmentKernel.Add(s.Values, earlier, columns);

        Int128 squares = 0;
        Int128 products = 0;
        for (int i = 0; i < s.Values.Length; i++)
        {
            squares += (Int128)s.Values[i] * s.Values[i];
            products += (Int128)s.Values[i] * s.Earlier[i];
        }

        return sums.Sum == s.Values.Sum(v => (double)v)
            && sums.Squares == (double)squares
            && sums.Products == (double)products
            && earlier.Select((e, i) => e == (double)s.Earlier[i] + s.Values[i]).All(same => same)
            && columns.Select((c, i) => c == s.Values[i]).All(same => same);
    });

    [Fact]
    public void Add_VectorsAndScalars_GiveTheSameBits() => Segments.Sample(s =>
    {
        double[] earlier = Array.ConvertAll(s.Earlier, e => (double)e);
        double[] earlierOfScalars = [.. earlier];
        int[] columns = new int[s.Values.Length];
        int[] columnsOfScalars = new int[s.Values.Length];
        SegmentSums sums = SegmentKernel.Add(s.Values, earlier, columns);
        SegmentSums scalars = SegmentKernel.AddScalars(s.Values, earlierOfScalars, columnsOfScalars, 0, default);
        return sums == scalars && earlier.SequenceEqual(earlierOfScalars) && columns.SequenceEqual(columnsOfScalars);
    });

    [Fact]
    public void AddFirst_AnySegment_EqualsAddingToNothing() => Segments.Sample(s =>
    {
        double[] earlier = Array.ConvertAll(s.Earlier, e => (double)e);
        double[] nothing = new double[s.Values.Length];
        int[] columns = new int[s.Values.Length];
        int[] columnsOfAdd = new int[s.Values.Length];
        SegmentSums first = SegmentKernel.AddFirst(s.Values, earlier, columns);
        SegmentSums added = SegmentKernel.Add(s.Values, nothing, columnsOfAdd);
        return first == added && earlier.SequenceEqual(nothing) && columns.SequenceEqual(columnsOfAdd);
    });

    [Fact]
    public void Add_LongerDestinations_LeavesTheirRestAlone()
    {
        double[] earlier = [1, 1, 1, 1, 1, 1, 1, 1, 1, 7];
        int[] columns = [0, 0, 0, 0, 0, 0, 0, 0, 0, 9];
        SegmentKernel.Add(new ushort[9], earlier, columns);
        Assert.Equal(7, earlier[^1]);
        Assert.Equal(9, columns[^1]);
    }
}
