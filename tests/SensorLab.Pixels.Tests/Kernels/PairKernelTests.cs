using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using CsCheck;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Tests.Kernels;

public sealed class PairKernelTests
{
    private const int FewestColumns = 16;
    private const int FewestWideColumns = 32;
    private const int HighestOfFifteenBits = 0x7FFF;
    private const int HighestOfFourteenBits = 0x3FFF;

    /// <summary>Blocks are some 100 columns wide at most; beyond, only whole numbers of 32 bits set an end.</summary>
    private static readonly Gen<int> Columns = Gen.Int[FewestColumns, 150];

    [Fact]
    public void AddRow_AnySegmentOfFifteenBits_EqualsTheKernelOfDoubles()
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        Columns.SelectMany(n => Gen.Select(Codes(HighestOfFifteenBits).Array[n], Codes(HighestOfFifteenBits).Array[n]))
            .Sample(s => AgreesWithDoubles(s.Item1, s.Item2, s.Item1.Length));
    }

    [Fact]
    public void AddRows_FourRowsOfFourteenBits_EqualTheKernelOfDoubles()
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        FourRowsOf(Columns).Sample(s => AgreesWithDoubles(s.First, s.Second, s.First.Length / PairKernel.RowsAtOnce, PairKernel.AddNarrowRows));
    }

    [Fact]
    public void AddRows_InWideVectors_EqualTheKernelOfDoubles()
    {
        Assert.SkipUnless(WidePairKernel.CanAddRows(FewestWideColumns), "This processor has no vectors of 512 bits.");
        FourRowsOf(Gen.Int[FewestWideColumns, 150]).Sample(s => AgreesWithDoubles(s.First, s.Second, s.First.Length / PairKernel.RowsAtOnce, WidePairKernel.AddRows));
    }

    [Fact]
    public void AddRow_HighestCodesInALongSegment_DoesNotOverflow()
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        ushort[] highest = Filled(1 << 15, HighestOfFifteenBits);
        Assert.True(AgreesWithDoubles(highest, highest, highest.Length));
    }

    [Fact]
    public void AddRows_HighestCodes_DoesNotOverflow()
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        ushort[] highest = Filled(97 * PairKernel.RowsAtOnce, HighestOfFourteenBits);
        Assert.True(AgreesWithDoubles(highest, highest, 97, PairKernel.AddNarrowRows));
        Assert.True(AgreesWithDoubles(highest, highest, 97, PairKernel.AddRows));
    }

    [Theory]
    [InlineData(HighestOfFourteenBits, 64, true, true)]
    [InlineData(HighestOfFourteenBits + 1, 64, true, false)]
    [InlineData(HighestOfFifteenBits + 1, 64, false, false)]
    [InlineData(1, FewestColumns, true, true)]
    [InlineData(1, FewestColumns - 1, false, false)]
    [InlineData(1, (1 << 15) + 1, false, false)]
    public void CanAdd_WhatCouldOverflowOrIsNoVector_IsLeftToTheOtherKernel(int bits, int columns, bool row, bool rows)
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        Assert.Equal((row, rows), (PairKernel.CanAddRow(bits, columns), PairKernel.CanAddRows(bits, columns)));
    }

    [Fact]
    public void IsEmpty_BeforeAndAfterARowOfTheHighestCodes_TellsThemApart()
    {
        Assert.SkipUnless(Avx2.IsSupported, "This processor lacks AVX2.");
        var lanes = new PairLanes();
        Assert.True(lanes.IsEmpty);
        ushort[] highest = Filled(FewestColumns, HighestOfFifteenBits);
        PairKernel.AddRow(highest, highest, new int[FewestColumns], new int[FewestColumns], ref lanes);
        Assert.False(lanes.IsEmpty);
    }

    private delegate (Vector128<int> First, Vector128<int> Second) FourRows(
        ReadOnlySpan<ushort> first, ReadOnlySpan<ushort> second, int stride, Span<int> firstColumns, Span<int> secondColumns, ref PairLanes lanes);

    private static Gen<(ushort[] First, ushort[] Second)> FourRowsOf(Gen<int> columns) =>
        columns.SelectMany(n => Gen.Select(Codes(HighestOfFourteenBits).Array[n * PairKernel.RowsAtOnce], Codes(HighestOfFourteenBits).Array[n * PairKernel.RowsAtOnce]));

    // The ends of the range come often: that is where sums overflow.
    private static Gen<ushort> Codes(int highest) =>
        Gen.Frequency((3, Gen.UShort[0, (ushort)highest]), (1, Gen.Const((ushort)highest)), (1, Gen.Const((ushort)0)));

    private static ushort[] Filled(int length, int code)
    {
        ushort[] codes = new ushort[length];
        Array.Fill(codes, (ushort)code);
        return codes;
    }

    /// <summary>Adds the rows by this kernel, all four at once or a single one, and by that of doubles.</summary>
    private static bool AgreesWithDoubles(ushort[] first, ushort[] second, int columns, FourRows? addRows = null)
    {
        int[][] columnSums = [new int[columns], new int[columns]];
        List<int>[] rowSums = [[], []];
        var lanes = new PairLanes();
        if (addRows is not null)
        {
            (Vector128<int> ofFirst, Vector128<int> ofSecond) = addRows(first, second, columns, columnSums[0], columnSums[1], ref lanes);
            rowSums[0].AddRange(Enumerable.Range(0, PairKernel.RowsAtOnce).Select(i => ofFirst[i]));
            rowSums[1].AddRange(Enumerable.Range(0, PairKernel.RowsAtOnce).Select(i => ofSecond[i]));
        }
        else
        {
            (int ofFirst, int ofSecond) = PairKernel.AddRow(first, second, columnSums[0], columnSums[1], ref lanes);
            rowSums[0].Add(ofFirst);
            rowSums[1].Add(ofSecond);
        }

        int[][] expectedColumns = [new int[columns], new int[columns]];
        List<int>[] expectedRows = [[], []];
        SegmentSums firstSums = default, secondSums = default;
        List<double> stacks = [];
        for (int start = 0; start < first.Length; start += columns)
        {
            double[] stack = new double[columns];
            SegmentSums ofFirst = SegmentKernel.AddFirst(first.AsSpan(start, columns), stack, expectedColumns[0]);
            SegmentSums ofSecond = SegmentKernel.Add(second.AsSpan(start, columns), stack, expectedColumns[1]);
            (firstSums, secondSums) = (firstSums + ofFirst, secondSums + ofSecond);
            expectedRows[0].Add((int)ofFirst.Sum);
            expectedRows[1].Add((int)ofSecond.Sum);
            stacks.AddRange(stack);
        }

        return lanes.Total() == new PairSums(firstSums with { Sum = 0 }, secondSums with { Sum = 0 }, (int)stacks.Min(), (int)stacks.Max())
            && columnSums.Zip(expectedColumns).All(p => p.First.SequenceEqual(p.Second))
            && rowSums.Zip(expectedRows).All(p => p.First.SequenceEqual(p.Second));
    }
}
