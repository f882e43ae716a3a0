namespace SensorLab.Reports.Charts;

/// <summary>One panel of a chart.</summary>
/// <param name="Vertical">Its vertical axis.</param>
/// <param name="Height">Its height in pixels at the size of a screen.</param>
/// <param name="Series">What is drawn in it.</param>
internal sealed record PlotPanel(ChartAxis Vertical, float Height, IReadOnlyList<PlotSeries> Series)
{
    /// <summary>Straight lines across it.</summary>
    public IReadOnlyList<PlotRule> Rules { get; init; } = [];

    /// <summary>Distances along the horizontal axis that carry a name.</summary>
    public IReadOnlyList<PlotSpan> Spans { get; init; } = [];

    /// <summary>Words at the right edge, each at a value of the vertical axis.</summary>
    public IReadOnlyList<AxisTick> Notes { get; init; } = [];
}
