namespace SensorLab.Reports.Charts;

/// <summary>Points of one kind.</summary>
/// <param name="Label">What they are, as in the legend.</param>
/// <param name="Points">The points in rising x; where they carry intervals, the series has a band.</param>
internal sealed record ChartSeries(string Label, IReadOnlyList<ChartPoint> Points)
{
    /// <summary>Whether every point carries its interval.</summary>
    public bool HasBand => Points.Count > 0 && Points.All(point => point.LowerY95 is not null && point.UpperY95 is not null);
}
