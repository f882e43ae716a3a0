using CsCheck;
using SensorLab.Measurement.Pixels;

namespace SensorLab.Measurement.Tests.Pixels;

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
    public void Copy_AnyRow_CopiesItAndTellsItsBits() =>
        Gen.Int[0, 120].SelectMany(length => Gen.UShort.Array[length]).Sample(row =>
        {
            ushort[] copy = new ushort[row.Length];
            return PlaneSplitter.Copy(row, copy) == row.Aggregate(0, (all, value) => all | value) && copy.SequenceEqual(row);
        });
}
