namespace SensorLab.Reports.Charts;

/// <summary>A labelled value of an axis.</summary>
/// <param name="Value">The value in the axis' unit.</param>
/// <param name="Label">What is printed there.</param>
internal readonly record struct AxisTick(double Value, string Label);
