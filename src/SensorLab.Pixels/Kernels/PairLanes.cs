using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorLab.Pixels.Kernels;

/// <summary>The sums of two frames over a block in the making: kept lane by lane, and added up once for the whole block.</summary>
/// <remarks>All are whole numbers below 2⁵³, so that the totals are exact.</remarks>
internal struct PairLanes
{
    public PairLanes() => Lowest = Vector256<ushort>.AllBitsSet;

    /// <summary>Squares of the first frame's values in DN².</summary>
    public Vector256<ulong> FirstSquares { get; set; }

    /// <summary>Squares of the second frame's values in DN².</summary>
    public Vector256<ulong> SecondSquares { get; set; }

    /// <summary>Products of both frames' values in DN².</summary>
    public Vector256<ulong> Products { get; set; }

    /// <summary>Lowest sums of both frames at one site in DN; without any, beyond every sum of two codes below 2¹⁵.</summary>
    public Vector256<ushort> Lowest { get; set; }

    /// <summary>Highest sums of both frames at one site in DN.</summary>
    public Vector256<ushort> Highest { get; set; }

    /// <summary>Whether no row was added yet.</summary>
    public readonly bool IsEmpty => Lowest == Vector256<ushort>.AllBitsSet;

    /// <summary>The block's sums; those of the values themselves are left to its rows.</summary>
    public readonly PairSums Total() => new(
        new SegmentSums(0, Vector256.Sum(FirstSquares), 0),
        new SegmentSums(0, Vector256.Sum(SecondSquares), Vector256.Sum(Products)),
        LowestOf(Lowest),
        ushort.MaxValue - LowestOf(~Highest));

    private static int LowestOf(Vector256<ushort> values) =>
        Sse41.MinHorizontal(Vector128.Min(values.GetLower(), values.GetUpper())).ToScalar();
}

/// <summary>Sums over a segment of two frames, and the extremes of both frames' sum at one site.</summary>
/// <param name="First">The first frame's sums; it has no earlier frames.</param>
/// <param name="Second">The second frame's sums; the first is its earlier frame.</param>
/// <param name="LowestStack">Lowest sum of both frames at one site in DN.</param>
/// <param name="HighestStack">Highest sum of both frames at one site in DN.</param>
internal readonly record struct PairSums(SegmentSums First, SegmentSums Second, int LowestStack, int HighestStack);
