namespace SensorLab.Reports.Charts;

/// <summary>A chart of panels that share a horizontal axis, apart from its drawing.</summary>
/// <param name="Heading">The words that stand with it.</param>
/// <param name="Horizontal">The shared horizontal axis.</param>
/// <param name="Panels">The panels from the top down.</param>
internal sealed record PlotModel(ChartHeading Heading, ChartAxis Horizontal, IReadOnlyList<PlotPanel> Panels)
{
    /// <summary>Whether there is nothing to draw.</summary>
    public bool IsEmpty => Panels.All(panel => panel.Series.All(series => series.Points.Count == 0));
}
