namespace SensorLab.Reports.Charts;

/// <summary>A straight line across a panel.</summary>
/// <param name="IsUpright">Whether it stands at a value of the horizontal axis; else it lies at one of the vertical.</param>
/// <param name="Value">The value.</param>
/// <param name="Label">What is printed on it; empty for nothing.</param>
/// <param name="IsEmphasised">Whether it is drawn strong and unbroken.</param>
internal sealed record PlotRule(bool IsUpright, double Value, string Label, bool IsEmphasised);
