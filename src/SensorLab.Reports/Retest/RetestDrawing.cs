using System.Globalization;
using SensorLab.Retest;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Retest;

/// <summary>Differences with their intervals, each in its own margin; the band between the margins is what does not matter.</summary>
internal sealed class RetestDrawing(RetestChartModel model, ChartFont font, bool headed, bool narrow = false) : ChartDrawing(model.Heading, font, headed, narrow)
{
    private const float LabelSize = 13;
    private const float SmallSize = 11.5f;
    private const float HalfMark = 5;

    // Margins drawn to either side; what lies beyond gets an arrow at the edge.
    private const double Reach = 3;

    private const float AxisHeight = 44;
    private const float NarrowArrowRoom = 16;

    private static readonly int[] Ticks = [-3, -2, -1, 0, 1, 2, 3];

    // On a phone name, verdict and difference stand above their line.
    private float RowHeight => IsNarrow ? 58 : 25;

    private float NameWidth => IsNarrow ? NarrowArrowRoom : 258;

    private float ChartWidth => IsNarrow ? Width - (2 * Edge) - (2 * NarrowArrowRoom) : 330;

    public override float Height => HeadingBottom + AxisHeight + (Math.Max(3, model.Rows.Count) * RowHeight) + (IsNarrow ? 76 : 40);

    protected override void DrawChart(Pen pen, ChartTheme theme)
    {
        if (model.Rows.Count == 0)
        {
            DrawNote(pen, theme);
            return;
        }

        float top = HeadingBottom + AxisHeight;
        float bottom = top + (model.Rows.Count * RowHeight);
        pen.Box(new SKRect(Column(-1), top, Column(1), bottom), theme.Zone);
        DrawAxis(pen, theme, top, bottom);
        float middle = top + (RowHeight / 2);
        foreach (RetestRow row in model.Rows)
        {
            DrawRow(pen, theme, row, middle);
            middle += RowHeight;
        }

        DrawLegend(pen, theme, bottom + 24);
    }

    private float Column(double margins) => Edge + NameWidth + (float)((margins + Reach) / (2 * Reach) * ChartWidth);

    private void DrawAxis(Pen pen, ChartTheme theme, float top, float bottom)
    {
        pen.Text("difference, in margins", Column(0), top - 26, SmallSize, theme.Quiet, SKTextAlign.Center);
        if (!IsNarrow)
        {
            pen.Text("after − before", Column(Reach) + 24, top - 8, SmallSize, theme.Quiet);
            pen.Text("margin", Column(Reach) + 166, top - 8, SmallSize, theme.Quiet);
            pen.Text("verdict", Column(Reach) + 228, top - 8, SmallSize, theme.Quiet);
        }

        foreach (int tick in Ticks)
        {
            bool isMargin = Math.Abs(tick) == 1;
            pen.Line(Column(tick), top, Column(tick), bottom, isMargin || tick == 0 ? theme.Quiet : theme.Grid, isMargin ? 1.5f : 1);
            pen.Text(tick.ToString("+0;−0;0", CultureInfo.InvariantCulture), Column(tick), top - 8, SmallSize, theme.Quiet, SKTextAlign.Center);
        }
    }

    private void DrawRow(Pen pen, ChartTheme theme, RetestRow row, float middle)
    {
        bool isBold = row.Verdict == RetestVerdict.Changed;
        if (IsNarrow)
        {
            DrawWordsAbove(pen, theme, row, middle - (RowHeight / 2));
        }
        else
        {
            float baseline = middle + (LabelSize * 0.35f);
            pen.Text(Cut(pen, row.Name, NameWidth - 10), Edge, baseline, LabelSize, theme.Ink, SKTextAlign.Left, isBold);
            pen.Text(row.Text, Column(Reach) + 24, baseline, LabelSize, theme.Ink, SKTextAlign.Left, isBold);
            pen.Text(row.MarginText, Column(Reach) + 166, baseline, LabelSize, theme.Quiet);
            pen.Text(RetestResultWriter.WordOf(row.Verdict), Column(Reach) + 228, baseline, LabelSize, theme.Ink, SKTextAlign.Left, isBold);
        }

        DrawDifference(pen, theme, row, IsNarrow ? middle + 18 : middle);
    }

    private void DrawWordsAbove(Pen pen, ChartTheme theme, RetestRow row, float top)
    {
        bool isBold = row.Verdict == RetestVerdict.Changed;
        string verdict = RetestResultWriter.WordOf(row.Verdict);
        float right = Width - Edge;

        // The scale's lines would cross the words.
        pen.Box(new SKRect(Edge, top, right, top + 36), theme.Page);
        pen.Text(verdict, right, top + 16, LabelSize, theme.Ink, SKTextAlign.Right, bold: true);
        pen.Text(Cut(pen, row.Name, right - Edge - pen.Measure(verdict, LabelSize, bold: true) - 10), Edge, top + 16, LabelSize, theme.Ink, SKTextAlign.Left, isBold);
        pen.Text($"{row.Text}, margin {row.MarginText}", Edge, top + 32, SmallSize, theme.Quiet);
    }

    private void DrawDifference(Pen pen, ChartTheme theme, RetestRow row, float middle)
    {
        if (row.Value is not { } value)
        {
            return;
        }

        SKColor colour = ColourOf(theme, row.Verdict);
        if (Math.Abs(value) > Reach)
        {
            DrawArrow(pen, colour, value > 0 ? 1 : -1, middle);
            return;
        }

        pen.Line(Column(Math.Max(row.Lower, -Reach)), middle, Column(Math.Min(row.Upper, Reach)), middle, colour, 2.5f);
        DrawMark(pen, theme, row.Verdict, Column(value), middle);
    }

    /// <summary>A filled circle's stand-in by verdict: square within, diamond beyond, open diamond where it is open.</summary>
    private static void DrawMark(Pen pen, ChartTheme theme, RetestVerdict verdict, float x, float y)
    {
        SKColor colour = ColourOf(theme, verdict);
        if (verdict == RetestVerdict.Equivalent)
        {
            pen.Box(new SKRect(x - HalfMark + 1, y - HalfMark + 1, x + HalfMark - 1, y + HalfMark - 1), colour);
            return;
        }

        float half = HalfMark + 1.5f;
        pen.Shape([new(x - half, y), new(x, y - half), new(x + half, y), new(x, y + half)], verdict == RetestVerdict.Changed ? colour : theme.Page, colour);
    }

    private void DrawArrow(Pen pen, SKColor colour, int side, float y)
    {
        float tip = Column(side * Reach) + (side * 12);
        pen.Shape([new(tip, y), new(tip - (side * 12), y - HalfMark - 1), new(tip - (side * 12), y + HalfMark + 1)], colour);
    }

    private void DrawLegend(Pen pen, ChartTheme theme, float baseline)
    {
        (RetestVerdict Verdict, string Words)[] items =
        [
            (RetestVerdict.Equivalent, "within the margin"),
            (RetestVerdict.Undecided, "open"),
            (RetestVerdict.Changed, "beyond it (arrow: by more than 3 margins)"),
        ];
        if (IsNarrow)
        {
            float row = baseline;
            foreach ((RetestVerdict verdict, string words) in items)
            {
                DrawMark(pen, theme, verdict, Edge + HalfMark + 2, row - 4);
                pen.Text(words, Edge + HalfMark + 16, row, SmallSize, theme.Quiet);
                row += 18;
            }

            return;
        }

        float x = Edge + HalfMark + 2;
        foreach ((RetestVerdict verdict, string words) in items)
        {
            DrawMark(pen, theme, verdict, x, baseline - 4);
            pen.Text(words, x + 14, baseline, SmallSize, theme.Quiet);
            x += 14 + pen.Measure(words, SmallSize) + 26;
        }

        pen.Text("Lines: the intervals judged by, 95 % for all figures at once.", Width - Edge, baseline, SmallSize, theme.Quiet, SKTextAlign.Right);
    }

    private static SKColor ColourOf(ChartTheme theme, RetestVerdict verdict) => verdict switch
    {
        RetestVerdict.Changed => theme.Warm,
        RetestVerdict.Undecided => theme.Ink,
        _ => theme.Shadow,
    };

    private static string Cut(Pen pen, string name, float room)
    {
        string cut = name;
        while (pen.Measure(cut, LabelSize, bold: true) > room)
        {
            cut = cut[..^2] + "…";
        }

        return cut;
    }
}
