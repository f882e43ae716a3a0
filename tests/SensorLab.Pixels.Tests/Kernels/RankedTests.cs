using CsCheck;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Tests.Kernels;

public sealed class RankedTests
{
    /// <summary>Values of many and of few kinds: what is equal to the pivot must not be lost or looped over.</summary>
    private static readonly Gen<double[]> Values = Gen.OneOf(Gen.Double[-1e6, 1e6], Gen.Int[0, 3].Select(i => (double)i)).Array[1, 300];

    [Fact]
    public void At_AnyValuesAndRank_IsTheValueThatSortingPutsThere() =>
        Gen.Select(Values, Gen.Double[0, 1]).Sample((values, share) =>
        {
            int rank = Math.Min(values.Length - 1, (int)(share * values.Length));
            double[] sorted = [.. values.Order()];
            return Ranked.At(values, rank) == sorted[rank];
        });

    [Fact]
    public void Median_OfAnyValues_IsTheOneOfTheSorted() => Values.Sample(values =>
    {
        double[] sorted = [.. values.Order()];
        int middle = sorted.Length / 2;
        return Ranked.MedianOf(values) == (sorted.Length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2);
    });
}
