using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports;

/// <summary>Writes the report of a sensor profile: a page, a document to print, the charts, the tables.</summary>
/// <remarks>
/// <c>report.html</c>, <c>report.pdf</c> with the answer and <c>appendix.pdf</c> with all the rest, <c>charts/NAME.svg</c> and <c>.png</c> for a light and, ending in <c>-dark</c>, for a
/// dark page, <c>tables/NAME.csv</c>. Everything comes from the profile alone; the same profile gives the same bytes on a system
/// with the same font.
/// </remarks>
public static class ReportWriter
{
    /// <summary>Writes everything, or nothing: all is made before the first file of the folder is touched.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="folder">The folder; made where missing, files of the same name replaced, others left alone.</param>
    /// <param name="cancellation">Stops the work; nothing half-written is left.</param>
    /// <returns>The files' paths in the folder, with forward slashes, the page first.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="IOException">The folder cannot be made, or a file not written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static IReadOnlyList<string> Write(SensorProfile profile, string folder, CancellationToken cancellation = default)
    {
        IReadOnlyList<ReportFile> files = Files(profile, cancellation);
        new WholeOutput().WithFolder(folder, files.Select(file => (file.Name, file.Bytes))).PutInPlace(cancellation);
        return [.. files.Select(file => file.Name)];
    }

    /// <summary>Requires what every report is set in, before long work begins.</summary>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static void RequireFonts() => ChartFont.OfThisSystem();

    /// <summary>Makes every file of the report and writes none.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The files, the page first.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static IReadOnlyList<ReportFile> Files(SensorProfile profile, CancellationToken cancellation = default)
    {
        var font = ChartFont.OfThisSystem();
        ReportDocument report = new ReportBuilder(profile, font).Build();
        cancellation.ThrowIfCancellationRequested();
        (string Name, byte[] Bytes)[] files =
        [
            ("report.html", HtmlReport.Of(report)),
            ("report.pdf", PdfReport.Of(report, font, cancellation)),
            ("appendix.pdf", PdfReport.Appendix(report, font, cancellation)),
            .. Charts(profile, font, cancellation),
            .. AllTables.Of(profile, report.Review).Select(table => ($"tables/{table.Name}.csv", CsvTable.Of(table))),
        ];
        return [.. files.Select(file => new ReportFile(file.Name, file.Bytes))];
    }

    private static IEnumerable<(string Name, byte[] Bytes)> Charts(SensorProfile profile, ChartFont font, CancellationToken cancellation) =>
        Drawings(profile, font)
            .AsParallel()
            .AsOrdered()
            .WithCancellation(cancellation)
            .Select(Pictures)
            .AsSequential()
            .SelectMany(pictures => pictures);

    private static (string Name, byte[] Bytes)[] Pictures((string Name, ChartDrawing Drawing) chart) =>
    [
        .. ChartTheme.All.SelectMany(theme => new[]
        {
            ($"charts/{chart.Name}{theme.Suffix}.svg", ChartImage.Svg(chart.Drawing, theme, chart.Name + theme.Suffix)),
            ($"charts/{chart.Name}{theme.Suffix}.png", ChartImage.Png(chart.Drawing, theme)),
        }),
    ];

    /// <summary>The charts of a profile, by name.</summary>
    internal static IEnumerable<(string Name, ChartDrawing Drawing)> Drawings(SensorProfile profile, ChartFont font)
    {
        yield return ("latitude-ruler", new LatitudeRulerDrawing(LatitudeRulerModel.From(profile), font));
        yield return ("shadow-end", new PlotDrawing(ShadowEndChart.From(profile), font));
        yield return ("declared-levels", new PlotDrawing(DeclaredLevelsChart.From(profile), font));
        BudgetChartModel budget = BudgetChartModel.From(profile);
        if (budget.Rows.Count > 0)
        {
            yield return ("budget", new BudgetDrawing(budget, font));
        }

        foreach (IsoProfile iso in profile.IsoProfiles.OrderBy(iso => iso.Iso))
        {
            string suffix = string.Create(CultureInfo.InvariantCulture, $"iso-{iso.Iso}");
            yield return ($"photon-transfer-{suffix}", new PhotonTransferDrawing(PhotonTransferModel.From(profile, iso), font));
            yield return ($"snr-{suffix}", new SnrChartDrawing(SnrChartModel.From(profile, iso), font));
            yield return ($"response-{suffix}", new PlotDrawing(ResponseChart.From(profile, iso), font));
            yield return ($"fixed-pattern-{suffix}", new PlotDrawing(FixedPatternChart.From(profile, iso), font));
            if (iso.Previews.Count > 0)
            {
                yield return ($"preview-{suffix}", new PlotDrawing(ToneCurveChart.From(profile, iso), font));
            }
        }
    }
}
