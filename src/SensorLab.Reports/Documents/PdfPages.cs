using SkiaSharp;

namespace SensorLab.Reports.Documents;

/// <summary>The pages of a PDF while they are drawn, with what each part of them is.</summary>
/// <remarks>
/// Skia's document has no way to name parts from here. A mark is drawn as a rectangle that nobody sees, of a size that nothing
/// else has; <see cref="TaggedPdf"/> finds it in the page's content and puts the part's name in its place.
/// </remarks>
/// <param name="document">Where they go.</param>
internal sealed class PdfPages(SKDocument document)
{
    /// <summary>Width of a mark in points; binary, so that it is written without rounding.</summary>
    public const float MarkWidth = 1 / 16f;

    /// <summary>Height of a mark in points.</summary>
    public const float MarkHeight = 1 / 32f;

    private const int MarksAcross = 256;

    private readonly List<List<PdfElement?>> _marks = [];
    private SKCanvas? _canvas;
    private PdfElement? _current;

    /// <summary>The document's own element.</summary>
    public PdfElement Root { get; } = new();

    /// <summary>Of every page the parts in the order in which they were drawn; null for what only adorns.</summary>
    public IReadOnlyList<IReadOnlyList<PdfElement?>> Marks => _marks;

    /// <summary>Begins a page.</summary>
    /// <param name="width">Its width in points.</param>
    /// <param name="height">Its height in points.</param>
    /// <returns>What is drawn on.</returns>
    public SKCanvas BeginPage(float width, float height)
    {
        _canvas = document.BeginPage(width, height);
        _marks.Add([]);
        return _canvas;
    }

    /// <summary>Ends the page.</summary>
    public void EndPage() => document.EndPage();

    /// <summary>What is drawn from here on, to the page's end or the next mark, belongs to an element.</summary>
    /// <param name="element">The element; null for what only adorns the page: lines, footers, heads that are repeated.</param>
    public void Mark(PdfElement? element)
    {
        _current = element;
        List<PdfElement?> page = _marks[^1];
        using var paint = new SKPaint { Color = SKColors.White };
        _canvas!.DrawRect(SKRect.Create(page.Count % MarksAcross, page.Count / MarksAcross, MarkWidth, MarkHeight), paint);
        page.Add(element);
    }

    /// <summary>Begins a row of a table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="type">TH or TD.</param>
    /// <returns>Begins a cell of it, each time it is called.</returns>
    public Action Cells(PdfElement table, string type)
    {
        PdfElement row = table.Add("TR");
        return () => Mark(row.Add(type));
    }

    /// <summary>Draws what only adorns a page, and goes on with the element before it.</summary>
    /// <param name="draw">Draws.</param>
    public void Adorn(Action draw)
    {
        PdfElement? before = _current;
        Mark(null);
        draw();
        if (before is not null)
        {
            Mark(before);
        }
    }
}
