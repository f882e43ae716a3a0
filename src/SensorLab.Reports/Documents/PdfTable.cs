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
    private const float Leading = 1.34f;

    // A table of few columns has room for titles on two lines.
    private const float RoomyHead = 72;
    private const int FewColumns = 7;
    private static readonly ChartTheme Theme = ChartTheme.Light;

    private float _size = LargestSize;
    private float[] _widths = [];

    /// <summary>Draws the table.</summary>
    public void Draw()
    {
        Fit();
        IReadOnlyList<string>[] head = [.. table.Columns.Select((c, i) => Wrap(c.Title, i, bold: true))];
        float headHeight = (head.Max(lines => lines.Count) * _size * Leading) + 4;
        flow.Require(headHeight + (4 * _size * Leading) + 14);
        flow.Y = flow.Pen.Paragraph(table.Caption, PageFlow.Left, flow.Y, PageFlow.Width, 8, Theme.Quiet) + 3;
        DrawHead(head, headHeight);
        foreach (IReadOnlyList<TableCell> row in table.Rows)
        {
            DrawRow(row, head, headHeight);
        }

        flow.Y += 10;
        DrawDefinitions();
    }

    private void Fit()
    {
        float[] wanted = [.. table.Columns.Select((_, i) => Wanted(i, LargestSize))];
        bool[] isElastic = [.. table.Columns.Select((c, i) => c.Kind == ColumnKind.Words || (i == 0 && wanted[i] > WidestWords))];
        float available = PageFlow.Width - (Gap * (table.Columns.Count - 1));
        float firm = wanted.Where((_, i) => !isElastic[i]).Sum();
        float elastic = wanted.Where((_, i) => isElastic[i]).Sum();
        float least = NarrowestWords * isElastic.Count(e => e);
        float scale = Math.Min(1, (available - least) / Math.Max(1, firm));
        _size = Math.Max(SmallestSize, LargestSize * (elastic > 0 ? scale : Math.Min(1, available / Math.Max(1, firm))));
        float shrunk = _size / LargestSize;
        float left = available - (firm * shrunk);
        _widths = [.. wanted.Select((w, i) => isElastic[i] ? Math.Min(w * shrunk, left * w / Math.Max(1, elastic)) : w * shrunk)];
    }

    private float Wanted(int column, float size)
    {
        float cells = table.Rows.Select(row => flow.Pen.Measure(row[column].Printed, size, bold: column == 0)).DefaultIfEmpty(0).Max();
        float head = table.Columns[column].Title.Split(' ').Max(word => flow.Pen.Measure(word, size, bold: true));
        float title = Math.Min(flow.Pen.Measure(table.Columns[column].Title, size, bold: true), RoomyHead);
        float natural = Math.Max(Math.Max(cells, head), table.Columns.Count > FewColumns ? 0 : title) + 1;
        bool hasDefinitions = table.Rows.Any(row => row[column].Value is FigureDefinition);
        return hasDefinitions ? Math.Max(natural, WidestWords) : table.Columns[column].Kind == ColumnKind.Words ? Math.Min(natural, WidestWords) : natural;
    }

    private IReadOnlyList<string> Wrap(string text, int column, bool bold) =>
        TextLines.Wrap(text, _widths[column] + 0.5f, words => flow.Pen.Measure(words, _size, bold));

    private void DrawHead(IReadOnlyList<string>[] head, float height)
    {
        float x = PageFlow.Left;
        foreach ((int index, IReadOnlyList<string> lines) in head.Index())
        {
            float top = flow.Y + height - 4 - (lines.Count * _size * Leading);
            DrawLines(lines, x, top, index, Theme.Ink, bold: true, _size);
            x += _widths[index] + Gap;
        }

        flow.Y += height;
        flow.Pen.Line(PageFlow.Left, flow.Y - 1.5f, PageFlow.Left + _widths.Sum() + (Gap * (_widths.Length - 1)), flow.Y - 1.5f, Theme.Ink, 0.8f);
    }

    private void DrawRow(IReadOnlyList<TableCell> row, IReadOnlyList<string>[] head, float headHeight)
    {
        IReadOnlyList<string>[] cells = [.. row.Select((cell, i) => Wrap(cell.Printed, i, bold: i == 0))];
        string? definition = (row[0].Value as FigureDefinition)?.Full;
        float smaller = _size - 1;
        IReadOnlyList<string> small = definition is null ? [] : TextLines.Wrap(definition, _widths[0], words => flow.Pen.Measure(words, smaller));
        float height = (cells.Max(lines => Math.Max(1, lines.Count)) * _size * Leading) + 3;
        height = Math.Max(height, (cells[0].Count * _size * Leading) + (small.Count * smaller * Leading) + 4);
        if (flow.Require(Math.Min(height, PageFlow.FullHeight / 2)))
        {
            DrawHead(head, headHeight);
        }

        float x = PageFlow.Left;
        foreach ((int index, IReadOnlyList<string> lines) in cells.Index())
        {
            DrawLines(lines, x, flow.Y, index, Theme.Ink, bold: index == 0, _size);
            x += _widths[index] + Gap;
        }

        DrawLines(small, PageFlow.Left, flow.Y + (cells[0].Count * _size * Leading), 0, Theme.Quiet, bold: false, smaller);
        flow.Y += height;
        flow.Pen.Line(PageFlow.Left, flow.Y - 1, PageFlow.Left + _widths.Sum() + (Gap * (_widths.Length - 1)), flow.Y - 1, Theme.Grid, 0.5f);
    }

    private void DrawLines(IReadOnlyList<string> lines, float x, float top, int column, SKColor colour, bool bold, float size)
    {
        bool isWords = column == 0 || table.Columns[column].Kind is ColumnKind.Words or ColumnKind.Word;
        foreach ((int index, string line) in lines.Index())
        {
            float baseline = top + ((index + 1) * size * Leading) - (size * 0.2f);
            flow.Pen.Text(line, isWords ? x : x + _widths[column], baseline, size, colour, isWords ? SKTextAlign.Left : SKTextAlign.Right, bold);
        }
    }

    private void DrawDefinitions()
    {
        foreach (FigureDefinition definition in table.Columns.Select(c => c.Definition).OfType<FigureDefinition>())
        {
            flow.Require(20);
            flow.Y = flow.Pen.Paragraph($"{definition.Name}: {definition.Full}", PageFlow.Left, flow.Y, PageFlow.Width, 6.8f, Theme.Quiet);
        }

        flow.Y += 8;
    }
}
