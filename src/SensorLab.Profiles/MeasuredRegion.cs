namespace SensorLab.Profiles;

/// <summary>A rectangle of photosites, from the active area's top left.</summary>
/// <param name="X">First column.</param>
/// <param name="Y">First row.</param>
/// <param name="Width">Columns.</param>
/// <param name="Height">Rows.</param>
public sealed record MeasuredRegion(int X, int Y, int Width, int Height);
