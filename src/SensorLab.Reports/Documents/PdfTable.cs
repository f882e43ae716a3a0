using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;
using SkiaSharp;

namespace SensorLab.Reports.Documents;

/// <summary>A table on paper: as wide as the page at most, its head repeated on every page.</summary>
/// <param name="flow">The pages.</param>
/// <param name="table">The table.</param>
internal sealed class PdfTable(PageFlow flow, ReportTable table)
{
    private const float LargestSize = 7.5f;
    private const float SmallestSize = 4.6f;
    private const float Gap = 9;
    private const float WidestWords = 190;
    private const float NarrowestWords = 46;

    // A name longer than this, such as a hash, is broken.
    private const int LongestName = 40;
    private const float Leading = 1.34f;

    // A table of few columns has room for titles on two lines.
    private const float RoomyHead = 72;
    private const int FewColumns = 7;
    private static readonly ChartTheme Theme = ChartTheme.Light;

    private float _size = LargestSize;
    private float[] _widths = [];
    private PdfElement? _element;

    /// <summary>The room for its caption, its head and its first rows: what a heading above it has to leave.</summary>
    public float LeastHeight
    {
        get
        {
            Fit();
            return RoomFor(HeadHeight(Head()));
        }
    }

    /// <summary>Draws the table.</summary>
    public void Draw()
    {
        Fit();
        IReadOnlyList<string>[] head = Head();
        float headHeight = HeadHeight(head);
        flow.Require(RoomFor(headHeight));
        _element = flow.Add("Table");
        flow.Mark(flow.Add("Caption", _element));
        flow.Y = flow.Pen.Paragraph(table.Caption, PageFlow.Left, flow.Y, PageFlow.Width, 8, Theme.Quiet) + 3;
        DrawHead(head, headHeight, flow.Add("TR", _element));
        foreach (IReadOnlyList<TableCell> row in table.Rows)
        {
            DrawRow(row, head, headHeight);
        }

        flow.Y += 14;
    }

    private IReadOnlyList<string>[] Head() => [.. table.Columns.Select((c, i) => Wrap(c.Title, i, bold: true))];

    private float HeadHeight(IReadOnlyList<string>[] head) => (head.Max(lines => lines.Count) * _size * Leading) + 4;

    private float RoomFor(float headHeight) => headHeight + (4 * _size * Leading) + 14;

    private void Fit()
    {
        float[] wanted = [.. table.Columns.Select((_, i) => Wanted(i, LargestSize))];
        bool[] isElastic = [.. table.Columns.Select((c, i) => c.Kind == ColumnKind.Words || (i == 0 && wanted[i] > WidestWords))];
        float available = PageFlow.Width - (Gap * (table.Columns.Count - 1));
        float firm = wanted.Where((_, i) => !isElastic[i]).Sum();
        float elastic = wanted.Where((_, i) => isElastic[i]).Sum();
        float[] names = [.. table.Columns.Select((_, i) => isElastic[i] ? Math.Min(wanted[i], Math.Max(NarrowestWords, LongestNameOf(i))) : 0)];
        float least = names.Sum();
        float scale = Math.Min(1, (available - least) / Math.Max(1, firm));
        _size = Math.Max(SmallestSize, LargestSize * (elastic > 0 ? scale : Math.Min(1, available / Math.Max(1, firm))));
        float shrunk = _size / LargestSize;
        float left = available - (firm * shrunk);
        float share = Math.Max(0, left - (least * shrunk)) / Math.Max(1, elastic - least);
        _widths = [.. wanted.Select((w, i) => isElastic[i] ? Math.Min(w * shrunk, (names[i] * shrunk) + ((w - names[i]) * share)) : w * shrunk)];
    }

    // What must not be broken: a file's name, a code.
    private float LongestNameOf(int column) => table.Rows
        .Select(row => TextLines.LongestPiece(row[column].Printed))
        .Where(piece => piece.Length <= LongestName)
        .Select(piece => flow.Pen.Measure(piece, LargestSize, bold: column == 0))
        .DefaultIfEmpty(0)
        .Max() + 2;

    private float Wanted(int column, float size)
    {
        float cells = table.Rows.Select(row => flow.Pen.Measure(row[column].Printed, size, bold: column == 0)).DefaultIfEmpty(0).Max();
        float head = table.Columns[column].Title.Split(' ').Max(word => flow.Pen.Measure(word, size, bold: true));
        float title = Math.Min(flow.Pen.Measure(table.Columns[column].Title, size, bold: true), RoomyHead);
        float natural = Math.Max(Math.Max(cells, head), table.Columns.Count > FewColumns ? 0 : title) + 1;
        return table.Columns[column].Kind == ColumnKind.Words ? Math.Min(natural, WidestWords) : natural;
    }

    private IReadOnlyList<string> Wrap(string text, int column, bool bold) =>
        TextLines.Wrap(text, _widths[column] + 0.5f, words => flow.Pen.Measure(words, _size, bold));

    private void DrawHead(IReadOnlyList<string>[] head, float height, PdfElement? row)
    {
        float x = PageFlow.Left;
        foreach ((int index, IReadOnlyList<string> lines) in head.Index())
        {
            float top = flow.Y + height - 4 - (lines.Count * _size * Leading);
            flow.Mark(row?.Add("TH"));
            DrawLines(lines, x, top, index, Theme.Ink, bold: true, _size);
            x += _widths[index] + Gap;
        }

        flow.Y += height;
        flow.Pen.Line(PageFlow.Left, flow.Y - 1.5f, PageFlow.Left + _widths.Sum() + (Gap * (_widths.Length - 1)), flow.Y - 1.5f, Theme.Ink, 0.8f);
    }

    private void DrawRow(IReadOnlyList<TableCell> row, IReadOnlyList<string>[] head, float headHeight)
    {
        IReadOnlyList<string>[] cells = [.. row.Select((cell, i) => Wrap(cell.Printed, i, bold: i == 0))];
        float height = (cells.Max(lines => Math.Max(1, lines.Count)) * _size * Leading) + 3;
        if (flow.Require(Math.Min(height, PageFlow.FullHeight / 2)))
        {
            flow.Adorn(() => DrawHead(head, headHeight, null));
        }

        PdfElement? element = flow.Add("TR", _element);
        float x = PageFlow.Left;
        foreach ((int index, IReadOnlyList<string> lines) in cells.Index())
        {
            flow.Mark(element?.Add("TD"));
            DrawLines(lines, x, flow.Y, index, Theme.Ink, bold: index == 0, _size);
            x += _widths[index] + Gap;
        }

        flow.Y += height;
        flow.Pen.Line(PageFlow.Left, flow.Y - 1, PageFlow.Left + _widths.Sum() + (Gap * (_widths.Length - 1)), flow.Y - 1, Theme.Grid, 0.5f);
    }

    private void DrawLines(IReadOnlyList<string> lines, float x, float top, int column, SKColor colour, bool bold, float size)
    {
        bool isWords = column == 0 || table.Columns[column].Kind is ColumnKind.Words or ColumnKind.Word;
        foreach ((int index, string line) in lines.Index())
        {
            float baseline = top + ((index + 1) * size * Leading) - (size * 0.2f);
            flow.Pen.Text(line, isWords ? x : x + _widths[column], baseline, size, colour, isWords ? SKTextAlign.Left : SKTextAlign.Right, bold, goesOn: index + 1 < lines.Count);
        }
    }
}
