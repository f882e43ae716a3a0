using System.Globalization;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Targets;

/// <summary>Lays the grey sheet out, in points of 1/72 inch.</summary>
internal sealed class GreySheetLayout
{
    /// <summary>Points a millimetre.</summary>
    public const float PointsPerMm = 72 / 25.4f;

    // Most printers leave up to 6 mm of each edge white.
    private const float EdgeMm = 10;
    private const float GapMm = 5;
    private const float ColumnGapMm = 7;
    private const float BarMm = 100;
    private const float BarTickMm = 10;
    private const float BarHeightMm = 2.5f;
    // One weight throughout: the canvas embeds every typeface whole, and a second one would double the document.
    private const float HeadingSize = 17;
    private const float SectionSize = 11.5f;
    private const float TextSize = 9;
    private const float ListIndent = 11;

    // Neither black nor white for any meter; its exact shade does not matter.
    private static readonly SKColor Grey = new(0x77, 0x77, 0x77);
    private static readonly SKColor Ink = SKColors.Black;

    private readonly ChartFont _font;

    /// <summary>Lays the sheet out.</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="font">What its words are set in.</param>
    /// <exception cref="ArgumentOutOfRangeException">The paper is none of <see cref="PaperSize"/>.</exception>
    public GreySheetLayout(PaperSize paper, ChartFont font)
    {
        _font = font;
        Page = paper switch
        {
            PaperSize.A4 => Millimetres(210, 297),
            PaperSize.A3 => Millimetres(297, 420),
            PaperSize.Letter => Millimetres(215.9f, 279.4f),
            _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "The sheet is made for A4, A3 and Letter."),
        };
    }

    /// <summary>The paper's size in points.</summary>
    public SKSize Page { get; }

    /// <summary>The grey field in points: what the words leave of the page.</summary>
    public SKRect Field => new(Mm(EdgeMm), Mm(EdgeMm), Page.Width - Mm(EdgeMm), Page.Height - Mm(EdgeMm) - WordsHeight() - Mm(GapMm));

    /// <summary>Draws the sheet.</summary>
    /// <param name="canvas">Where to.</param>
    /// <param name="beforeWords">Is called between the field and the words; null for nothing.</param>
    public void Draw(SKCanvas canvas, Action? beforeWords = null)
    {
        var pen = new Pen(canvas, _font);
        SKRect field = Field;
        pen.Box(SKRect.Create(Page), SKColors.White);
        pen.Box(field, Grey);
        beforeWords?.Invoke();
        DrawWords(pen, field.Bottom + Mm(GapMm));
    }

    private static SKSize Millimetres(float width, float height) => new(Mm(width), Mm(height));

    private static float Mm(float millimetres) => millimetres * PointsPerMm;

    private float WordsHeight()
    {
        using var recorder = new SKPictureRecorder();
        return DrawWords(new Pen(recorder.BeginRecording(SKRect.Create(Page)), _font), 0);
    }

    private float DrawWords(Pen pen, float top)
    {
        float left = Mm(EdgeMm);
        float column = (Page.Width - (2 * left) - Mm(ColumnGapMm)) / 2;
        float right = left + column + Mm(ColumnGapMm);
        pen.Text(GreySheetWords.Heading, left, top + HeadingSize, HeadingSize, Ink);
        DrawBar(pen, Page.Width - left - Mm(BarMm), top + 1);
        float body = top + Mm(13);
        float leftBottom = Section(pen, GreySheetWords.SetUpHeading, GreySheetWords.SetUp, left, body, column, numbered: true);
        float rightBottom = pen.Paragraph(GreySheetWords.CannotHeading, right, body, column, SectionSize, Ink);
        rightBottom = pen.Paragraph(GreySheetWords.Cannot, right, rightBottom + 1, column, TextSize, Ink);
        rightBottom = Section(pen, GreySheetWords.CautionHeading, GreySheetWords.Cautions, right, rightBottom + 5, column, numbered: false);
        return Math.Max(leftBottom, rightBottom);
    }

    private static float Section(Pen pen, string heading, IReadOnlyList<string> items, float left, float top, float width, bool numbered)
    {
        float bottom = pen.Paragraph(heading, left, top, width, SectionSize, Ink) + 1;
        foreach ((int index, string item) in items.Index())
        {
            string mark = numbered ? (index + 1).ToString(CultureInfo.InvariantCulture) : "·";
            pen.Paragraph(mark, left, bottom, ListIndent, TextSize, Ink);
            bottom = pen.Paragraph(item, left + ListIndent, bottom, width - ListIndent, TextSize, Ink) + 1.5f;
        }

        return bottom;
    }

    // Alternately black and white fields of 10 mm, so that either end can be laid against a ruler.
    private static void DrawBar(Pen pen, float left, float top)
    {
        for (float mm = 0; mm < BarMm; mm += BarTickMm)
        {
            SKRect field = SKRect.Create(left + Mm(mm), top, Mm(BarTickMm), Mm(BarHeightMm));
            pen.Box(field, Ink);
            if (mm / BarTickMm % 2 != 0)
            {
                field.Inflate(0, -0.6f);
                pen.Box(field, SKColors.White);
            }
        }

        pen.Box(SKRect.Create(left + Mm(BarMm) - 0.6f, top, 0.6f, Mm(BarHeightMm)), Ink);
        float baseline = top + Mm(BarHeightMm) + 9;
        pen.Text("0", left, baseline, TextSize, Ink);
        pen.Text("100 mm", left + Mm(BarMm), baseline, TextSize, Ink, SKTextAlign.Right);
        pen.Text(GreySheetWords.ScaleCaption, left + Mm(BarMm), baseline + 11, TextSize - 0.8f, Ink, SKTextAlign.Right);
    }
}
