using CsCheck;
using SensorLab.Measurement.Statistics;

namespace SensorLab.Measurement.Tests.Statistics;

public sealed class PlaneSplitterTests
{
    [Fact]
    public void Split_AnyRow_TakesEvenAndOddPhotositesApart() =>
        Gen.Int[0, 120].SelectMany(pairs => Gen.UShort.Array[2 * pairs]).Sample(row =>
        {
            ushort[] even = new ushort[row.Length / 2];
            ushort[] odd = new ushort[row.Length / 2];
            PlaneSplitter.Split(row, even, odd);
            return even.SequenceEqual(row.Where((_, i) => i % 2 == 0)) && odd.SequenceEqual(row.Where((_, i) => i % 2 == 1));
        });
}
