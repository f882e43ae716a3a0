using CsCheck;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Tests.Planes;

public sealed class PlaneSplitterTests
{
    [Fact]
    public void Split_AnyRow_TakesEvenAndOddPhotositesApart() =>
        Gen.Int[0, 120].SelectMany(pairs => Gen.UShort.Array[2 * pairs]).Sample(row =>
        {
            ushort[] even = new ushort[row.Length / 2];
            ushort[] odd = new ushort[row.Length / 2];
            ushort bits = PlaneSplitter.Split(row, even, odd);
            return bits == row.Aggregate(0, (all, value) => all | value) && even.SequenceEqual(row.Where((_, i) => i % 2 == 0)) && odd.SequenceEqual(row.Where((_, i) => i % 2 == 1));
        });

    [Fact]
    public void SplitInThree_AnyRow_TakesEveryThirdPhotositeApart() =>
        Gen.Int[0, 120].SelectMany(threes => Gen.UShort.Array[3 * threes]).Sample(row =>
        {
            ushort[][] parts = [.. Enumerable.Range(0, 3).Select(_ => new ushort[row.Length / 3])];
            PlaneSplitter.SplitInThree(row, parts[0], parts[1], parts[2]);
            return Enumerable.Range(0, 3).All(part => parts[part].SequenceEqual(row.Where((_, i) => i % 3 == part)));
        });

    [Fact]
    public void Copy_AnyRow_CopiesItAndTellsItsBits() =>
        Gen.Int[0, 120].SelectMany(length => Gen.UShort.Array[length]).Sample(row =>
        {
            ushort[] copy = new ushort[row.Length];
            return PlaneSplitter.Copy(row, copy) == row.Aggregate(0, (all, value) => all | value) && copy.SequenceEqual(row);
        });
}
