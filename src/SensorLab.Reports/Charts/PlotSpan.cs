namespace SensorLab.Reports.Charts;

/// <summary>A distance along the horizontal axis that carries a name.</summary>
/// <param name="From">Its start.</param>
/// <param name="To">Its end, no less than the start.</param>
/// <param name="Y">Where it lies along the vertical axis.</param>
/// <param name="Label">Its name.</param>
internal readonly record struct PlotSpan(double From, double To, double Y, string Label);
