using System.Globalization;
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
    public PageFlow(SKDocument? document, ChartFont font, string footer, int pages)
    {
        (_document, _font, _footer, _pages) = (document, font, footer, pages);
        NewPage();
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

    /// <summary>Ends the last page.</summary>
    public void End()
    {
        if (Count > 0)
        {
            _document?.EndPage();
        }
    }
}
