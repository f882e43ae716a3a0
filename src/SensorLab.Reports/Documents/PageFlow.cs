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

    private readonly PdfPages? _document;
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
    private PageFlow(PdfPages? document, ChartFont font, string footer, int pages)
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
        Adorn(() =>
        {
            Pen.Line(Left, Bottom + 12, Left + Width, Bottom + 12, ChartTheme.Light.Grid, 0.6f);
            Pen.Text(words, Left, Bottom + 24, FooterSize, ChartTheme.Light.Quiet);
            Pen.Text(number, Left + Width, Bottom + 24, FooterSize, ChartTheme.Light.Quiet, SKTextAlign.Right);
        });
    }

    /// <summary>Adds a part to the document, for readers that speak.</summary>
    /// <param name="type">Its standard structure type (ISO 32000-1, 14.8.4).</param>
    /// <param name="parent">What it is a part of; null for the document.</param>
    /// <param name="alternative">A picture in words.</param>
    /// <returns>Null while pages are counted.</returns>
    public PdfElement? Add(string type, PdfElement? parent = null, string? alternative = null) => _document is null ? null : (parent ?? _document.Root).Add(type, alternative);

    /// <summary>What is drawn from here on belongs to a part.</summary>
    /// <param name="element">As <see cref="Add"/> gave it.</param>
    public void Mark(PdfElement? element)
    {
        if (element is not null)
        {
            _document!.Mark(element);
        }
    }

    /// <summary>Adds a list's item; what is drawn from here on belongs to it.</summary>
    /// <param name="list">The list, as <see cref="Add"/> gave it for L.</param>
    public PdfElement? Item(PdfElement? list)
    {
        PdfElement? item = Add("LBody", Add("LI", list));
        Mark(item);
        return item;
    }

    /// <summary>Draws what only adorns the page.</summary>
    /// <param name="draw">Draws.</param>
    public void Adorn(Action draw)
    {
        if (_document is null)
        {
            draw();
        }
        else
        {
            _document.Adorn(draw);
        }
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
    /// <param name="of">The part that they belong to; null for a paragraph of their own.</param>
    public void Paragraph(string words, float size, bool bold = false, bool quiet = false, float indent = 0, PdfElement? of = null)
    {
        Mark(of ?? Add("P"));
        IReadOnlyList<string> lines = [.. TextLines.Wrap(ForeignText.OneLine(words), Width - indent, text => Pen.Measure(text, size, bold))];
        foreach ((int index, string line) in lines.Index())
        {
            Require(size * LineHeight);
            Y = Pen.Paragraph(line, Left + indent, Y, Width, size, quiet ? ChartTheme.Light.Quiet : ChartTheme.Light.Ink, bold, goesOn: index + 1 < lines.Count);
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
        Paragraph(words, size, bold: true, of: Add("H3"));
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
