namespace SensorLab.Reports.Charts;

/// <summary>How a series is drawn.</summary>
internal enum PlotForm
{
    /// <summary>Markers alone.</summary>
    Points,

    /// <summary>Markers joined by a line.</summary>
    JoinedPoints,

    /// <summary>A line alone.</summary>
    Line,
}
