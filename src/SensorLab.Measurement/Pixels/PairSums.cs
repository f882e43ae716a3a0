namespace SensorLab.Measurement.Pixels;

/// <summary>Sums over a segment of two frames, and the extremes of both frames' sum at one site.</summary>
/// <param name="First">The first frame's sums; it has no earlier frames.</param>
/// <param name="Second">The second frame's sums; the first is its earlier frame.</param>
/// <param name="LowestStack">Lowest sum of both frames at one site in DN.</param>
/// <param name="HighestStack">Highest sum of both frames at one site in DN.</param>
internal readonly record struct PairSums(SegmentSums First, SegmentSums Second, int LowestStack, int HighestStack);
