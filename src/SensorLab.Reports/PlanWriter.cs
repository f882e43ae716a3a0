using SensorLab.Files;
using SensorLab.Planning.Plans;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Plans;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports;

/// <summary>Writes a shot list into a folder: as a table, as data, as a page for the phone, as a sheet to print.</summary>
/// <remarks><c>plan.csv</c>, <c>plan.json</c>, <c>plan.html</c>, <c>plan.pdf</c>; the same plan gives the same bytes on a system with the same font.</remarks>
public static class PlanWriter
{
    /// <summary>Writes all four files, or none.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="folder">The folder; made where missing, files of the same name replaced, others left alone.</param>
    /// <param name="cancellation">Stops the work; nothing half-written is left.</param>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="IOException">The folder cannot be made, or a file not written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static void Write(ShotPlan plan, string folder, CancellationToken cancellation = default) =>
        new WholeOutput().WithFolder(folder, Files(plan).Select(file => (file.Name, file.Bytes))).PutInPlace(cancellation);

    /// <summary>Makes all four files and writes none.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>The files, the page first.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static IReadOnlyList<ReportFile> Files(ShotPlan plan) =>
    [
        new("plan.html", PlanPage.Of(plan)),
        new("plan.pdf", PlanSheet.Of(plan, ChartFont.OfThisSystem())),
        new("plan.csv", CsvTable.Of(PlanTables.Steps(plan))),
        new("plan.json", ShotPlanDocument.Write(plan)),
    ];
}
