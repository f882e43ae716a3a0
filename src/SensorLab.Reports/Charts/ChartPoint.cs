namespace SensorLab.Reports.Charts;

/// <summary>A point of a chart with the 95 % interval of its y, where that is known.</summary>
/// <param name="X">Position along the horizontal axis, in its unit.</param>
/// <param name="Y">Position along the vertical axis, in its unit.</param>
/// <param name="LowerY95">Lower end of the 95 % interval.</param>
/// <param name="UpperY95">Upper end of the 95 % interval.</param>
internal readonly record struct ChartPoint(double X, double Y, double? LowerY95 = null, double? UpperY95 = null);
