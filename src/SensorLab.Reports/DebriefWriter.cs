using SensorLab.Debrief;
using SensorLab.Reports.Debriefs;

namespace SensorLab.Reports;

/// <summary>Makes the files of a debrief: one offline page with the day on a ruler and a contact sheet, and every frame as CSV and as Parquet.</summary>
/// <remarks>The same day gives the same bytes.</remarks>
public static class DebriefWriter
{
    /// <summary>The files: debrief.html, debrief.csv, frames.parquet.</summary>
    /// <param name="day">The day.</param>
    public static IReadOnlyList<ReportFile> Files(DayDebrief day) =>
    [
        new ReportFile("debrief.html", DebriefPage.Of(day)),
        new ReportFile("debrief.csv", DebriefTable.Csv(day)),
        new ReportFile("frames.parquet", DebriefTable.Parquet(day)),
    ];
}
