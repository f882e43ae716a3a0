using SensorLab.Debrief;
using SensorLab.Profiles;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Debriefs;

/// <summary>The frames of a debrief as a table: the same columns as CSV and as Parquet.</summary>
internal static class DebriefTable
{
    private static readonly (string Name, ParquetKind Kind, Func<FrameDebrief, object?> Value)[] Columns =
    [
        ("file", ParquetKind.Text, f => f.File),
        ("iso", ParquetKind.Int32, f => f.Iso),
        ("profileIso", ParquetKind.Int32, f => f.ProfileIso),
        ("exposureSeconds", ParquetKind.Double, f => f.ExposureSeconds),
        ("apertureFNumber", ParquetKind.Double, f => f.ApertureFNumber),
        ("captureUtc", ParquetKind.Moment, f => f.CaptureTime),
        .. ChannelName.InOrder.Select(channel => ($"clippedPercent{channel}", ParquetKind.Double, (Func<FrameDebrief, object?>)(f => f.ClippedPercent.TryGetValue(channel, out double share) ? share : null))),
        ("clippedSurfacePercent", ParquetKind.Double, f => f.ClippedSurfacePercent),
        ("headroomLeftEv", ParquetKind.Double, f => f.HeadroomLeftEv),
        ("clipStandardUncertaintyEv", ParquetKind.Double, f => f.ClipStandardUncertaintyEv),
        ("brightTextureEv", ParquetKind.Double, f => f.BrightTextureEv),
        ("brightTextureChannel", ParquetKind.Text, f => f.BrightTextureChannel),
        ("exposeToClipEv", ParquetKind.Double, f => f.ExposeToClipEv),
        ("exposeToClipAtMostEv", ParquetKind.Double, f => f.ExposeToClipAtMostEv),
        ("isReckonedBeyondClip", ParquetKind.Boolean, f => f.IsReckonedBeyondClip),
        ("shadowPercentSnr10", ParquetKind.Double, f => f.ShadowPercent.Snr10),
        ("shadowPercentSnr4", ParquetKind.Double, f => f.ShadowPercent.Snr4),
        ("shadowPercentSnr10AtClip", ParquetKind.Double, f => f.ShadowPercentAtClip?.Snr10),
        ("shadowPercentSnr4AtClip", ParquetKind.Double, f => f.ShadowPercentAtClip?.Snr4),
        ("brightestEv", ParquetKind.Double, f => f.BrightestEv),
        ("medianEv", ParquetKind.Double, f => f.MedianEv),
        ("darkestEv", ParquetKind.Double, f => f.DarkestEv),
        ("previewBlewRawHeld", ParquetKind.Boolean, f => f.PreviewBlewRawHeld),
        ("previewHidClipped", ParquetKind.Boolean, f => f.PreviewHidClipped),
    ];

    /// <summary>As CSV.</summary>
    public static byte[] Csv(DayDebrief day) => CsvTable.Of(new ReportTable(
        "debrief",
        "Frames",
        [.. Columns.Select(c => new TableColumn(c.Name, c.Name, ColumnKind.Word))],
        [.. day.Frames.Select(f => (IReadOnlyList<TableCell>)[.. Columns.Select(c => new TableCell(string.Empty, Plain(c.Value(f))))])]));

    /// <summary>As Parquet.</summary>
    public static byte[] Parquet(DayDebrief day) => ParquetTable.Of(
        [.. Columns.Select(c => new ParquetColumn(c.Name, c.Kind, [.. day.Frames.Select(c.Value)]))],
        "SensorLab");

    private static object? Plain(object? value) => value switch
    {
        bool truth => truth ? "true" : "false",
        DateTimeOffset moment => moment.UtcDateTime.ToString("yyyy-MM-ddTHH:mm:ssZ", System.Globalization.CultureInfo.InvariantCulture),
        _ => value,
    };
}
