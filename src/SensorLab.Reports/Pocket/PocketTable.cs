using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;
using SkiaSharp;

namespace SensorLab.Reports.Pocket;

/// <summary>A small table in black: columns as wide as what they hold, words broken to what is left, letters smaller where all is too wide.</summary>
internal sealed class PocketTable
{
    private const float Leading = 1.32f;
    private const float SizeStep = 0.25f;
    private const float WidestWord = 80;
    private const float SmallestGap = 7;
    private const float LargestGap = 22;
    private static readonly SKColor Ink = SKColors.Black;

    private readonly Pen _pen;
    private readonly ReportTable _table;
    private readonly float _width;
    private readonly float _size;
    private readonly float[] _widths;
    private readonly float _gap;

    /// <summary>Fits a table.</summary>
    /// <param name="pen">What draws and measures.</param>
    /// <param name="table">The table.</param>
    /// <param name="width">The width to fill.</param>
    /// <param name="largest">The largest size of letters.</param>
    /// <param name="smallest">The smallest size of letters that can still be read.</param>
    public PocketTable(Pen pen, ReportTable table, float width, float largest, float smallest)
    {
        (_pen, _table, _width, _size) = (pen, table, width, largest);
        _widths = WidthsAt(_size);
        while (_size > smallest && _widths.Sum() + (SmallestGap * (_widths.Length - 1)) > width)
        {
            _size -= SizeStep;
            _widths = WidthsAt(_size);
        }

        _gap = Math.Clamp((width - _widths.Sum()) / Math.Max(1, _widths.Length - 1), SmallestGap, LargestGap);
    }

    /// <summary>The height of the head.</summary>
    public float HeadHeight => (Head().Max(lines => lines.Count) * _size * Leading) + 3;

    /// <summary>The height of a row.</summary>
    /// <param name="row">Its number.</param>
    public float RowHeight(int row) => (Cells(row).Max(lines => Math.Max(1, lines.Count)) * _size * Leading) + 2.5f;

    /// <summary>Draws the head.</summary>
    /// <param name="left">Left edge.</param>
    /// <param name="top">Top edge.</param>
    /// <param name="beforeCell">Is called before each cell; null for nothing.</param>
    /// <returns>The bottom edge.</returns>
    public float DrawHead(float left, float top, Action? beforeCell = null)
    {
        float bottom = top + HeadHeight;
        float x = left;
        foreach ((int index, IReadOnlyList<string> lines) in Head().Index())
        {
            beforeCell?.Invoke();
            DrawLines(lines, x, bottom - 3 - (lines.Count * _size * Leading), index, bold: true);
            x += _widths[index] + _gap;
        }

        _pen.Line(left, bottom - 1, left + _width, bottom - 1, Ink, 0.9f);
        return bottom;
    }

    /// <summary>Draws a row.</summary>
    /// <param name="row">Its number.</param>
    /// <param name="left">Left edge.</param>
    /// <param name="top">Top edge.</param>
    /// <param name="beforeCell">Is called before each cell; null for nothing.</param>
    /// <returns>The bottom edge.</returns>
    public float DrawRow(int row, float left, float top, Action? beforeCell = null)
    {
        float bottom = top + RowHeight(row);
        float x = left;
        foreach ((int index, IReadOnlyList<string> lines) in Cells(row).Index())
        {
            beforeCell?.Invoke();
            DrawLines(lines, x, top, index, bold: index == 0);
            x += _widths[index] + _gap;
        }

        _pen.Line(left, bottom - 0.8f, left + _width, bottom - 0.8f, Ink, 0.3f);
        return bottom;
    }

    private float[] WidthsAt(float size)
    {
        bool[] isElastic = [.. _table.Columns.Select(c => c.Kind == ColumnKind.Words)];
        float[] widths = [.. _table.Columns.Select((column, i) => Math.Max(
            _table.Rows.Max(row => _pen.Measure(row[i].Printed, size, bold: i == 0)),
            OnTwoLines(column.Title, size)) + 1)];
        float left = _width - widths.Where((_, i) => !isElastic[i]).Sum() - (SmallestGap * (widths.Length - 1));
        float elastic = widths.Where((_, i) => isElastic[i]).Sum();
        return [.. widths.Select((w, i) => isElastic[i] ? Math.Min(w, Math.Max(LongestWord(i, size), left * w / elastic)) : w)];
    }

    // The least width at which a title takes two lines at most.
    private float OnTwoLines(string title, float size)
    {
        string[] words = title.Split(' ');
        return Enumerable.Range(1, words.Length)
            .Min(cut => Math.Max(Measured(words[..cut]), Measured(words[cut..])));

        float Measured(string[] part) => _pen.Measure(string.Join(' ', part), size, bold: true);
    }

    private float LongestWord(int column, float size) => Math.Min(
        WidestWord, _table.Rows.SelectMany(row => row[column].Printed.Split(' ')).Max(word => _pen.Measure(word, size)) + 1);

    private IReadOnlyList<string>[] Head() => [.. _table.Columns.Select((c, i) => Wrap(c.Title, i, bold: true))];

    private IReadOnlyList<string>[] Cells(int row) => [.. _table.Rows[row].Select((cell, i) => Wrap(cell.Printed, i, bold: i == 0))];

    private IReadOnlyList<string> Wrap(string text, int column, bool bold) =>
        TextLines.Wrap(text, _widths[column] + 0.5f, words => _pen.Measure(words, _size, bold));

    private void DrawLines(IReadOnlyList<string> lines, float x, float top, int column, bool bold)
    {
        bool isWords = column == 0 || _table.Columns[column].Kind is ColumnKind.Words or ColumnKind.Word;
        foreach ((int index, string line) in lines.Index())
        {
            float baseline = top + ((index + 1) * _size * Leading) - (_size * 0.2f);
            _pen.Text(line, isWords ? x : x + _widths[column], baseline, _size, Ink, isWords ? SKTextAlign.Left : SKTextAlign.Right, bold, goesOn: index + 1 < lines.Count);
        }
    }
}
