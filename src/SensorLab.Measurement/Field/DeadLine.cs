using SensorLab.Frames;

namespace SensorLab.Measurement.Field;

/// <summary>A line of one channel that does not answer as its neighbours do, and is kept out of what is measured.</summary>
/// <param name="Channel">The channel.</param>
/// <param name="IsRow">Whether it is a row; else a column.</param>
/// <param name="Photosite">Its row or column, counted from the active area's top left.</param>
/// <param name="DarkOffDn">What it reads without light more than its neighbours, in DN; 0 where that does not stand out.</param>
/// <param name="LitOffShare">What it lacks (below 0) or has of its neighbours' signal in good light; 0 where that does not stand out.</param>
public readonly record struct DeadLine(SensorChannel Channel, bool IsRow, int Photosite, double DarkOffDn, double LitOffShare);
