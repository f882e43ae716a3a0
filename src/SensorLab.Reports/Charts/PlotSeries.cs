namespace SensorLab.Reports.Charts;

/// <summary>Points of one kind in a panel.</summary>
/// <param name="Label">What they are, as in the legend.</param>
/// <param name="Style">A channel's name, or "1" to "5", or "ink": the key of its colour, line and marker.</param>
/// <param name="Points">The points in drawing order.</param>
/// <param name="Form">How they are drawn.</param>
internal sealed record PlotSeries(string Label, string Style, IReadOnlyList<PlotPoint> Points, PlotForm Form = PlotForm.Points);
