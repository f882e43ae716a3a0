using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Targets;

/// <summary>The printable plain grey sheet, with how to set it up, cautions, and a bar to check the print's scale.</summary>
/// <remarks>
/// The grey has no known reflectance and needs none: the meter's zero defines middle grey. The same paper gives the same bytes
/// on a system with the same font.
/// </remarks>
public static class GreySheet
{
    // A fixed date, so that the document's bytes depend on its content alone.
    private static readonly DateTime DocumentDate = new(2026, 4, 18, 0, 0, 0, DateTimeKind.Utc);

    private const string Title = "SensorLab plain grey sheet";

    private const string Description =
        "A plain grey field to photograph out of focus; below it how to set it up, what a printed grey cannot give, cautions, and a bar of 100 mm to check the print.";

    /// <summary>The sheet as SVG of the paper's size.</summary>
    /// <param name="paper">The paper.</param>
    /// <returns>UTF-8.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The paper is none of <see cref="PaperSize"/>.</exception>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static byte[] ToSvg(PaperSize paper)
    {
        var layout = new GreySheetLayout(paper, ChartFont.OfThisSystem());
        using var stream = new MemoryStream();
        using (SKCanvas canvas = SKSvgCanvas.Create(SKRect.Create(layout.Page), stream))
        {
            layout.Draw(canvas);
        }

        return SvgFinish.Finish(stream.ToArray(), "grey-sheet", Title, Description, layout.Page, "mm", 1 / GreySheetLayout.PointsPerMm);
    }

    /// <summary>The sheet as PDF of the paper's size, with text that can be selected.</summary>
    /// <param name="paper">The paper.</param>
    /// <returns>The document.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The paper is none of <see cref="PaperSize"/>.</exception>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static byte[] ToPdf(PaperSize paper)
    {
        var layout = new GreySheetLayout(paper, ChartFont.OfThisSystem());
        return PdfFile.Of(
            Title, Description, DocumentDate,
            document =>
            {
                SKCanvas page = document.BeginPage(layout.Page.Width, layout.Page.Height);
                layout.Draw(page, () => document.Mark(document.Root.Add("P")));
                document.EndPage();
            },
            "The SensorLab contributors");
    }
}
