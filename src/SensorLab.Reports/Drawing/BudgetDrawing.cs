using System.Globalization;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Parts of an uncertainty as bars of one scale, their sum below.</summary>
internal sealed class BudgetDrawing(BudgetChartModel model, ChartFont font, bool headed = true, bool narrow = false) : ChartDrawing(model.Heading, font, headed, narrow)
{
    private const float BarHeight = 13;
    private const float LabelSize = 13;

    /// <summary>A bar that is there is seen.</summary>
    private const float LeastBar = 1.5f;

    // On a phone the words stand above their bar.
    private float RowHeight => IsNarrow ? 44 : 26;

    private float NameWidth => IsNarrow ? 0 : 170;

    private float BarWidth => IsNarrow ? Width - (2 * Edge) : 430;

    public override float Height => HeadingBottom + 20 + ((Math.Max(1, model.Rows.Count) + 1) * RowHeight);

    protected override void DrawChart(Pen pen, ChartTheme theme)
    {
        if (model.Rows.Count == 0)
        {
            DrawNote(pen, theme);
            return;
        }

        float middle = HeadingBottom + 10 + (RowHeight / 2);
        foreach (BudgetRow row in model.Rows)
        {
            // What is assumed is an outline, what was told is filled: told apart without colour too.
            DrawRow(pen, theme, (row.Source, row.HalfEv, row.Origin), middle, row.Origin.Contains("assumed", StringComparison.Ordinal) ? null : theme.Headroom);
            middle += RowHeight;
        }

        pen.Line(Edge, middle - (RowHeight / 2), Edge + NameWidth + BarWidth, middle - (RowHeight / 2), theme.Grid, 1);
        DrawRow(pen, theme, ("together", model.Whole, "95 %"), middle, theme.Ink);
    }

    private void DrawRow(Pen pen, ChartTheme theme, (string Name, double HalfEv, string Words) row, float middle, SKColor? fill)
    {
        float baseline = middle + (IsNarrow ? -8 : LabelSize * 0.35f);
        float left = Edge + NameWidth;
        float right = left + Math.Max(LeastBar, (float)(row.HalfEv / Math.Max(model.Whole, model.Rows[0].HalfEv)) * BarWidth);
        float centre = IsNarrow ? middle + 6 : middle;
        (float top, float bottom) = (centre - (BarHeight / 2), centre + (BarHeight / 2));
        string size = string.Create(CultureInfo.InvariantCulture, $"±{FigureText.RoundedUp(row.HalfEv, 3):F3} EV");
        pen.Text(IsNarrow ? $"{row.Name}, {row.Words}" : row.Name, Edge, baseline, LabelSize, theme.Ink);
        pen.Shape([new(left, top), new(right, top), new(right, bottom), new(left, bottom)], fill ?? theme.Page, fill is null ? theme.Ink : fill);
        if (IsNarrow)
        {
            pen.Text(size, Width - Edge, baseline, LabelSize, theme.Ink, SKTextAlign.Right);
            return;
        }

        pen.Text(size, Edge + NameWidth + BarWidth + 16, baseline, LabelSize, theme.Ink);
        pen.Text(row.Words, Edge + NameWidth + BarWidth + 120, baseline, LabelSize, theme.Quiet);
    }
}
