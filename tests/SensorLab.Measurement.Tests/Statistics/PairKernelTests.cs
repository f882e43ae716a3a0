using System.Runtime.Intrinsics.X86;
using CsCheck;
using SensorLab.Measurement.Statistics;

namespace SensorLab.Measurement.Tests.Statistics;

public sealed class PairKernelTests
{
    private const ushort HighestCode = 0x7FFF;

    private static readonly Gen<(ushort[] First, ushort[] Second)> Segments = Gen.Int[1, 150].SelectMany(n =>
        Gen.Select(Codes.Array[n], Codes.Array[n]));

    // The ends of the range come often: that is where sums overflow.
    private static Gen<ushort> Codes => Gen.Frequency((3, Gen.UShort[0, HighestCode]), (1, Gen.Const(HighestCode)), (1, Gen.Const((ushort)0)));

    [Fact]
    public void TryAdd_AnySegmentOfFifteenBits_EqualsTheKernelOfDoubles()
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        Segments.Sample(s => AgreesWithDoubles(s.First, s.Second));
    }

    [Fact]
    public void TryAdd_HighestCodesInALongSegment_DoesNotOverflow()
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        ushort[] highest = new ushort[1 << 15];
        Array.Fill(highest, HighestCode);
        Assert.True(AgreesWithDoubles(highest, highest));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(17)]
    [InlineData(64)]
    public void TryAdd_OneCodeOfSixteenBits_LeavesAllAsItWas(int at)
    {
        ushort[] low = new ushort[65];
        ushort[] high = new ushort[65];
        high[at] = HighestCode + 1;
        int[] columns = new int[65];
        Assert.False(PairKernel.TryAdd(low, high, columns, columns, out _));
        Assert.False(PairKernel.TryAdd(high, low, columns, columns, out _));
        Assert.All(columns, c => Assert.Equal(0, c));
    }

    [Fact]
    public void TryAdd_TooLongASegment_IsLeftToTheOtherKernel()
    {
        ushort[] values = new ushort[(1 << 15) + 1];
        int[] columns = new int[values.Length];
        Assert.False(PairKernel.TryAdd(values, values, columns, columns, out _));
    }

    private static bool AgreesWithDoubles(ushort[] first, ushort[] second)
    {
        int[] firstColumns = new int[first.Length];
        int[] secondColumns = new int[first.Length];
        bool done = PairKernel.TryAdd(first, second, firstColumns, secondColumns, out PairSums sums);

        double[] stack = new double[first.Length];
        int[] firstExpected = new int[first.Length];
        int[] secondExpected = new int[first.Length];
        SegmentSums firstSums = SegmentKernel.AddFirst(first, stack, firstExpected);
        SegmentSums secondSums = SegmentKernel.Add(second, stack, secondExpected);
        return done
            && sums == new PairSums(firstSums, secondSums, (int)stack.Min(), (int)stack.Max())
            && firstColumns.SequenceEqual(firstExpected)
            && secondColumns.SequenceEqual(secondExpected);
    }
}
