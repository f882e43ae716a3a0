namespace SensorLab.Measurement.Pixels;

/// <summary>Two sites of a channel that are neighbours in some way.</summary>
/// <param name="Link">Where they lie.</param>
/// <param name="IsSide">One is among the other's four nearest.</param>
/// <param name="IsAround">One is among the other's eight nearest.</param>
/// <param name="IsAlong">One is the other's next in the row.</param>
/// <param name="IsAcross">One is the other's next in the column.</param>
/// <param name="IsTouching">They touch, by a side or a corner: on sensors that put a filter over several photosites.</param>
internal readonly record struct NeighbourPair(NeighbourLink Link, bool IsSide, bool IsAround, bool IsAlong, bool IsAcross, bool IsTouching);
