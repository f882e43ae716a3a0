using System.Globalization;
using SensorLab.Files;
using SensorLab.Retest;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Retest;

namespace SensorLab.Reports;

/// <summary>Writes what a re-test found into a folder: the differences of each ISO drawn, the page that holds them, and the result as JSON.</summary>
/// <remarks><c>retest.html</c>, <c>retest.json</c>, and an ISO <c>retest-iso-400</c> as SVG and PNG, for a light and for a dark page.</remarks>
public static class RetestReportWriter
{
    /// <summary>Writes all files, or none.</summary>
    /// <param name="result">What the comparison came to.</param>
    /// <param name="folder">The folder; made where missing, files of the same name replaced, others left alone.</param>
    /// <param name="cancellation">Stops the work; nothing half-written is left.</param>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="IOException">The folder cannot be made, or a file not written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static void Write(RetestResult result, string folder, CancellationToken cancellation = default) =>
        new WholeOutput().WithFolder(folder, Files(result, cancellation).Select(file => (file.Name, file.Bytes))).PutInPlace(cancellation);

    /// <summary>Makes all files and writes none.</summary>
    /// <param name="result">What the comparison came to.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The files, the page first.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static IReadOnlyList<ReportFile> Files(RetestResult result, CancellationToken cancellation = default)
    {
        var font = ChartFont.OfThisSystem();
        using var document = new MemoryStream();
        RetestResultWriter.Write(result, document);
        (int Iso, RetestChartModel Model)[] isos =
            [.. result.Figures.Select(f => f.Address.Iso).Distinct().Order().Select(iso => (iso, RetestChartModel.From(result, iso)))];
        var files = new List<ReportFile>
        {
            new("retest.html", RetestPage.Of(result, [.. isos.Select(i => (i.Iso, new RetestDrawing(i.Model, font, headed: false), new RetestDrawing(i.Model, font, headed: false, narrow: true)))])),
            new("retest.json", document.ToArray()),
        };
        foreach ((int iso, RetestChartModel model) in isos)
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"retest-iso-{iso}");
            var drawing = new RetestDrawing(model, font, headed: true);
            foreach (ChartTheme theme in ChartTheme.All)
            {
                cancellation.ThrowIfCancellationRequested();
                files.Add(new ReportFile($"{name}{theme.Suffix}.svg", ChartImage.Svg(drawing, theme, name + theme.Suffix)));
                files.Add(new ReportFile($"{name}{theme.Suffix}.png", ChartImage.Png(drawing, theme)));
            }
        }

        return files;
    }
}
