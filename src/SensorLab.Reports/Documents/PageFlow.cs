using System.Globalization;
using SensorLab.Files;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Documents;

/// <summary>A4 pages that fill from the top down; lengths in points.</summary>
internal sealed class PageFlow
{
    /// <summary>Width of the page.</summary>
    public const float PageWidth = 595.28f;

    /// <summary>Height of the page.</summary>
    public const float PageHeight = 841.89f;

    /// <summary>The left edge of what is printed.</summary>
    public const float Left = 45;

    /// <summary>The width of what is printed.</summary>
    public const float Width = PageWidth - (2 * Left);

    private const float Top = 46;
    private const float Bottom = PageHeight - 52;
    private const float FooterSize = 7.5f;
    private const float LineHeight = 1.4f;

    // What a heading needs below it on its page.
    private const float HeadingCompany = 60;

    private readonly SKDocument? _document;
    private readonly ChartFont _font;
    private readonly string _footer;
    private readonly int _pages;
    private SKCanvas? _nowhere;
    private Pen? _pen;

    /// <summary>Prepares pages.</summary>
    /// <param name="document">Where they go; null to count them.</param>
    /// <param name="font">What they are set in.</param>
    /// <param name="footer">What stands at their foot.</param>
    /// <param name="pages">How many there will be; 0 where that is not known yet.</param>
    private PageFlow(SKDocument? document, ChartFont font, string footer, int pages)
    {
        (_document, _font, _footer, _pages) = (document, font, footer, pages);
        NewPage();
    }

    /// <summary>Writes pages that are numbered: they are counted in a first pass.</summary>
    /// <param name="title">The document's title.</param>
    /// <param name="subject">What it is about.</param>
    /// <param name="date">The content's own date.</param>
    /// <param name="font">What it is set in.</param>
    /// <param name="footer">What stands at the pages' foot.</param>
    /// <param name="draw">Draws everything; called twice.</param>
    /// <returns>The PDF.</returns>
    public static byte[] Write(string title, string? subject, DateTime date, ChartFont font, string footer, Action<PageFlow> draw)
    {
        var counted = new PageFlow(null, font, footer, 0);
        draw(counted);
        return PdfFile.Of(title, subject, date, document =>
        {
            var flow = new PageFlow(document, font, footer, counted.Count);
            draw(flow);
            flow.End();
        });
    }

    /// <summary>How many pages there are so far.</summary>
    public int Count { get; private set; }

    /// <summary>Where the next thing goes.</summary>
    public float Y { get; set; }

    /// <summary>What is left of the page.</summary>
    public float Room => Bottom - Y;

    /// <summary>The height that a page has for its content.</summary>
    public static float FullHeight => Bottom - Top;

    /// <summary>What draws on the page.</summary>
    public Pen Pen => _pen!;

    /// <summary>Starts a page.</summary>
    public void NewPage()
    {
        End();
        Count++;
        _nowhere ??= _document is null ? new SKNoDrawCanvas((int)PageWidth, (int)PageHeight) : null;
        _pen = new Pen(_document?.BeginPage(PageWidth, PageHeight) ?? _nowhere!, _font);
        Y = Top;
        string number = _pages > 0 ? string.Create(CultureInfo.InvariantCulture, $"{Count} of {_pages}") : string.Empty;
        float room = Width - Pen.Measure(number, FooterSize) - 20;
        string words = TextLines.Clip(TextLines.Wrap(_footer, room, text => Pen.Measure(text, FooterSize)), 1).FirstOrDefault(string.Empty);
        Pen.Line(Left, Bottom + 12, Left + Width, Bottom + 12, ChartTheme.Light.Grid, 0.6f);
        Pen.Text(words, Left, Bottom + 24, FooterSize, ChartTheme.Light.Quiet);
        Pen.Text(number, Left + Width, Bottom + 24, FooterSize, ChartTheme.Light.Quiet, SKTextAlign.Right);
    }

    /// <summary>Starts a page where this one has too little room.</summary>
    /// <param name="height">The room needed.</param>
    /// <returns>Whether a page was started.</returns>
    public bool Require(float height)
    {
        if (height <= Room)
        {
            return false;
        }

        NewPage();
        return true;
    }

    /// <summary>Writes words over the page's width, line by line, since a paragraph may be longer than a page.</summary>
    /// <param name="words">The words.</param>
    /// <param name="size">Their size.</param>
    /// <param name="bold">Whether they are bold.</param>
    /// <param name="quiet">Whether they stand back.</param>
    /// <param name="indent">How far from the left edge they begin.</param>
    public void Paragraph(string words, float size, bool bold = false, bool quiet = false, float indent = 0)
    {
        foreach (string line in TextLines.Wrap(ForeignText.OneLine(words), Width - indent, text => Pen.Measure(text, size, bold)))
        {
            Require(size * LineHeight);
            Y = Pen.Paragraph(line, Left + indent, Y, Width, size, quiet ? ChartTheme.Light.Quiet : ChartTheme.Light.Ink, bold);
        }
    }

    /// <summary>Writes a heading with room above, never alone at a page's foot.</summary>
    /// <param name="words">The words.</param>
    /// <param name="size">Their size.</param>
    /// <param name="above">The room above.</param>
    /// <param name="company">What stays with it on its page.</param>
    public void Heading(string words, float size, float above, float company = HeadingCompany)
    {
        Y += above;
        Require(company);
        Paragraph(words, size, bold: true);
        Y += 2;
    }

    /// <summary>Puts the point of a list's item before its words.</summary>
    /// <param name="size">The words' size.</param>
    public void Point(float size) => Pen.Text("·", Left + 2, Y + (size * 1.05f), size, ChartTheme.Light.Ink);

    /// <summary>Ends the last page.</summary>
    private void End()
    {
        if (Count > 0)
        {
            _document?.EndPage();
        }
    }
}
