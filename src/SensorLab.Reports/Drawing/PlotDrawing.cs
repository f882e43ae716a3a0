using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Draws a chart of panels that share a horizontal axis.</summary>
internal sealed class PlotDrawing : ChartDrawing
{
    private const float PanelGap = 26;
    private const float AxisRoom = 56;
    private const float LabelSize = 12.5f;
    private const float MarkerSize = 8;
    private const float LineWidth = 1.8f;
    private const float UprightLine = 15;

    // Letters of a note are never smaller than this; what does not fit then is cut.
    private const float SmallestNote = 9;

    // What hangs from the marker of an upper bound.
    private const float AtMostStem = 14;

    private readonly PlotModel _model;
    private readonly float _plotTop;

    /// <summary>Lays the chart out.</summary>
    /// <param name="model">What it shows.</param>
    /// <param name="font">What its words are set in.</param>
    /// <param name="headed">Whether the chart carries its own heading.</param>
    /// <param name="narrow">Whether it is the form for a phone.</param>
    public PlotDrawing(PlotModel model, ChartFont font, bool headed = true, bool narrow = false)
        : base(model.Heading, font, headed, narrow)
    {
        _model = model;
        _plotTop = HeadingBottom + 24 + (narrow ? UprightLine * (Upright(model) - 1) : 0);
        Height = MathF.Ceiling(Measure(pen => model.IsEmpty ? DrawNote(pen, ChartTheme.Light) : DrawLegend(pen, ChartTheme.Light)) + 16);
    }

    /// <inheritdoc/>
    public override float Height { get; }

    private static int Upright(PlotModel model) => Math.Max(1, model.Panels.Take(1).SelectMany(p => p.Rules).Count(r => r.IsUpright && r.Label.Length > 0));

    private float PlotsBottom => _plotTop + _model.Panels.Sum(panel => panel.Height + PanelGap) - PanelGap;

    /// <inheritdoc/>
    protected override void DrawChart(Pen pen, ChartTheme theme)
    {
        if (_model.IsEmpty)
        {
            DrawNote(pen, theme);
            return;
        }

        float top = _plotTop;
        foreach ((int index, PlotPanel panel) in _model.Panels.Index())
        {
            DrawPanel(pen, theme, panel, top, isLast: index == _model.Panels.Count - 1);
            top += panel.Height + PanelGap;
        }

        DrawLegend(pen, theme);
    }

    private void DrawPanel(Pen pen, ChartTheme theme, PlotPanel panel, float top, bool isLast)
    {
        var plot = new Panel(new SKRect(PlotLeft, top, PlotRight, top + panel.Height), _model.Horizontal, panel.Vertical, theme, Font);
        if (!isLast)
        {
            plot.HideHorizontalLabels();
        }

        foreach (PlotSeries series in panel.Series)
        {
            AddMarkers(plot, panel, series, ChannelStyle.Of(series.Style, theme));
        }

        plot.Draw(pen.Canvas);
        int upright = 0;
        foreach (PlotRule rule in panel.Rules)
        {
            // On a phone the words of one rule stand above those of another.
            DrawRule(pen, theme, plot, rule, IsNarrow && rule is { IsUpright: true, Label.Length: > 0 } ? UprightLine * upright++ : 0);
        }

        foreach (PlotSeries series in panel.Series.Where(s => s.Form != PlotForm.Points))
        {
            ChannelStyle style = ChannelStyle.Of(series.Style, theme);
            SKPoint[] line = [.. series.Points.Select(p => new SKPoint(plot.Column(p.X), plot.Row(p.Y)))];
            pen.Curve(line, style.Colour, LineWidth, style.Line, plot.Data);
        }

        DrawBeyond(pen, theme, plot, panel);
        foreach (PlotSpan span in panel.Spans)
        {
            DrawSpan(pen, theme, plot, span);
        }

        foreach (AxisTick note in panel.Notes)
        {
            DrawNote(pen, theme, plot, panel, note);
        }
    }

    private void AddMarkers(Panel plot, PlotPanel panel, PlotSeries series, ChannelStyle style)
    {
        foreach (PlotPoint point in series.Points.Where(p => IsOnPanel(panel.Vertical, p.Y)))
        {
            double x = Panel.Position(_model.Horizontal, point.X);
            double y = Panel.Position(panel.Vertical, point.Y);
            if (point is { LowerX95: { } left, UpperX95: { } right })
            {
                AddWhisker(plot, Panel.Position(_model.Horizontal, left), y, Panel.Position(_model.Horizontal, right), y, style);
            }

            if (point is { LowerY95: { } lower, UpperY95: { } upper })
            {
                double from = Panel.Position(panel.Vertical, Math.Max(lower, panel.Vertical.Minimum));
                double to = Panel.Position(panel.Vertical, Math.Min(upper, panel.Vertical.Maximum));
                AddWhisker(plot, x, from, x, to, style);
            }

            if (series.Form != PlotForm.Line)
            {
                plot.Plot.Add.Marker(x, y).MarkerStyle = ChartMarker.Of(point.IsHollow ? style.Hollow : style.Filled, MarkerSize, style.Colour);
            }
        }
    }

    private static void AddWhisker(Panel plot, double x1, double y1, double x2, double y2, ChannelStyle style)
    {
        ScottPlot.Plottables.LinePlot whisker = plot.Plot.Add.Line(x1, y1, x2, y2);
        whisker.LineColor = Panel.Colour(style.Colour);
        whisker.LineWidth = 1.3f;
        whisker.MarkerSize = 0;
    }

    private static bool IsOnPanel(ChartAxis vertical, double y) => y >= vertical.Minimum && y <= vertical.Maximum;

    private static void DrawRule(Pen pen, ChartTheme theme, Panel plot, PlotRule rule, float above)
    {
        SKColor colour = rule.IsEmphasised ? theme.Ink : theme.Quiet;
        DashPattern pattern = rule.IsEmphasised ? DashPattern.Solid : DashPattern.Dashed;
        if (rule.IsUpright)
        {
            float column = plot.Column(rule.Value);
            pen.Curve([new(column, plot.Data.Top), new(column, plot.Data.Bottom)], colour, 1.4f, pattern);
            float half = pen.Measure(rule.Label, LabelSize, bold: true) / 2;
            float centre = Math.Clamp(column, plot.Data.Left + half, plot.Data.Right - half);
            pen.Text(rule.Label, centre, plot.Data.Top - 7 - above, LabelSize, theme.Ink, SKTextAlign.Center, bold: true);
            return;
        }

        float row = plot.Row(rule.Value);
        pen.Curve([new(plot.Data.Left, row), new(plot.Data.Right, row)], colour, 1.1f, pattern);
        if (rule.Label.Length > 0)
        {
            pen.Label(rule.Label, plot.Data.Right - 6, row - 5, LabelSize, (theme.Quiet, theme.Page), SKTextAlign.Right, bold: false);
        }
    }

    private static void DrawBeyond(Pen pen, ChartTheme theme, Panel plot, PlotPanel panel)
    {
        foreach (PlotSeries series in panel.Series)
        {
            SKColor colour = ChannelStyle.Of(series.Style, theme).Colour;
            foreach (PlotPoint point in series.Points)
            {
                float column = plot.Column(point.X);
                if (!IsOnPanel(panel.Vertical, point.Y))
                {
                    bool above = point.Y > panel.Vertical.Maximum;
                    Arrow(pen, column, above ? plot.Data.Top : plot.Data.Bottom, above, colour);
                }
                else if (point.IsAtMost)
                {
                    float row = plot.Row(point.Y);
                    pen.Line(column, row + 4, column, Math.Min(row + AtMostStem, plot.Data.Bottom), colour, 1.3f);
                }
                else if (point.Open != OpenSide.None)
                {
                    new RulerMarks(pen, theme).Bound(column, plot.Row(point.Y), point.Open);
                }
            }
        }
    }

    private static void DrawSpan(Pen pen, ChartTheme theme, Panel plot, PlotSpan span)
    {
        (float left, float right, float row) = (plot.Column(span.From), plot.Column(span.To), plot.Row(span.Y));
        pen.Line(left, row, right, row, theme.Ink, 1.4f);
        pen.Line(left, row - 4, left, row + 4, theme.Ink, 1.4f);
        pen.Line(right, row - 4, right, row + 4, theme.Ink, 1.4f);
        pen.Label(span.Label, left - 6, row + 4, LabelSize, (theme.Ink, theme.Page), SKTextAlign.Right, bold: false);
    }

    // In the widest gap between the points of its row: no curve crosses the words there.
    private static void DrawNote(Pen pen, ChartTheme theme, Panel plot, PlotPanel panel, AxisTick note)
    {
        float row = plot.Row(note.Value);
        float[] columns =
        [
            .. panel.Series.SelectMany(s => s.Points).Where(p => p.Y == note.Value).Select(p => plot.Column(p.X))
                .Append(plot.Column(0)).Append(plot.Data.Left).Append(plot.Data.Right).Order(),
        ];
        (float left, float right) = columns.Zip(columns.Skip(1)).MaxBy(gap => gap.Second - gap.First);
        float room = right - left - 24;
        float size = Math.Min(LabelSize, LabelSize * room / Math.Max(1, pen.Measure(note.Label, LabelSize)));
        string words = size >= SmallestNote ? note.Label : TextLines.Clip(TextLines.Wrap(note.Label, room, text => pen.Measure(text, SmallestNote)), 1)[0];
        size = Math.Max(size, SmallestNote);
        pen.Label(words, ((left + right) / 2) - (pen.Measure(words, size) / 2), row + 4, size, (theme.Ink, theme.Page), SKTextAlign.Left, bold: false);
    }

    private static void Arrow(Pen pen, float x, float edge, bool upwards, SKColor colour)
    {
        float way = upwards ? 1 : -1;
        pen.Shape([new(x, edge + (way * 2)), new(x - 5, edge + (way * 11)), new(x + 5, edge + (way * 11))], null, colour);
    }

    private float DrawLegend(Pen pen, ChartTheme theme) =>
        new Legend(PlotLegend.Items(_model, theme)).Draw(pen, LegendLeft, PlotsBottom + AxisRoom, Width - Edge - LegendLeft, theme);
}
