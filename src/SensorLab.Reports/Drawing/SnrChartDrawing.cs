using ScottPlot;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Draws SNR against EV.</summary>
internal sealed class SnrChartDrawing : ChartDrawing
{
    private const float PlotHeight = 440;
    private const float AxisRoom = 56;
    private const float LabelSize = 12.5f;

    private readonly SnrChartModel _model;
    private readonly float _plotTop;

    /// <summary>Lays the chart out.</summary>
    /// <param name="model">What it shows.</param>
    /// <param name="font">What its words are set in.</param>
    /// <param name="headed">Whether the chart carries its own heading.</param>
    /// <param name="narrow">Whether it is the form for a phone.</param>
    public SnrChartDrawing(SnrChartModel model, ChartFont font, bool headed = true, bool narrow = false)
        : base(model.Heading, font, headed, narrow)
    {
        _model = model;
        _plotTop = HeadingBottom + (narrow ? 40 : 24);
        Height = MathF.Ceiling(Measure(pen => model.IsEmpty ? DrawNote(pen, ChartTheme.Light) : DrawLegend(pen, ChartTheme.Light)) + 16);
    }

    /// <inheritdoc/>
    public override float Height { get; }

    /// <inheritdoc/>
    protected override void DrawChart(Pen pen, ChartTheme theme)
    {
        if (_model.IsEmpty)
        {
            DrawNote(pen, theme);
            return;
        }

        var panel = new Panel(
            new SKRect(PlotLeft, _plotTop, PlotRight, _plotTop + PlotHeight), _model.Horizontal, _model.Vertical, theme, Font);
        DrawClipZone(pen, theme, panel);
        AddBand(panel, _model.Temporal, theme.Warm);
        AddBand(panel, _model.Total, theme.Shadow);
        AddPoints(panel, _model.MeasuredTemporal, theme.Warm, MarkerShape.OpenDiamond);
        AddPoints(panel, _model.MeasuredTotal, theme.Shadow, MarkerShape.FilledCircle);
        panel.Draw(pen.Canvas);
        DrawGreyLine(pen, theme, panel);
        DrawCurve(pen, panel, _model.Temporal, theme.Warm, DashPattern.Dashed);
        DrawCurve(pen, panel, _model.Total, theme.Shadow, DashPattern.Solid);
        foreach (CriterionLine criterion in _model.Criteria)
        {
            DrawCriterion(pen, theme, panel, criterion);
        }

        DrawBrightEnd(pen, theme, panel);
        DrawLegend(pen, theme);
    }

    private static void DrawGreyLine(Pen pen, ChartTheme theme, Panel panel)
    {
        float grey = panel.Column(0);
        pen.Line(grey, panel.Data.Top, grey, panel.Data.Bottom, theme.Ink, 1.4f);
        pen.Text("middle grey", grey, panel.Data.Top - 7, LabelSize, theme.Ink, SKTextAlign.Center, bold: true);
    }

    // In the lower right there is room: a curve that reaches so far is high up there.
    private void DrawBrightEnd(Pen pen, ChartTheme theme, Panel panel)
    {
        if (_model.BrightEnd is not { } end)
        {
            return;
        }

        float column = panel.Column(end.Ev);
        pen.Line(column, panel.Data.Top, column, panel.Data.Bottom, theme.Ink, 2);
        if (IsNarrow)
        {
            // Above the plot, where no curve and no criterion runs.
            pen.Text($"bright end {EvText.Mark(end)} EV", Width - Edge, panel.Data.Top - 23, LabelSize, theme.Ink, SKTextAlign.Right, bold: true);
        }

        float baseline = panel.Data.Bottom - 12;
        if (!IsNarrow)
        {
            pen.Label("bright end", column - 10, baseline - 17, LabelSize, (theme.Ink, theme.Page), SKTextAlign.Right, bold: true);
            pen.Label($"{EvText.Mark(end)} EV", column - 10, baseline, LabelSize, (theme.Ink, theme.Page), SKTextAlign.Right, bold: true);
        }

        if (end.IsBound)
        {
            new RulerMarks(pen, theme).Bound(column, baseline - 10, end.Open);
        }
    }

    private void DrawClipZone(Pen pen, ChartTheme theme, Panel panel)
    {
        if (_model.BrightEnd is { IsBound: false } end)
        {
            pen.Box(new SKRect(panel.Column(end.Ev), panel.Data.Top, panel.Data.Right, panel.Data.Bottom), theme.Zone);
        }
    }

    private ChartPoint[] OnChart(ChartSeries series) => [.. series.Points.Where(p => p.Y >= _model.Vertical.Minimum)];

    private void AddBand(Panel panel, ChartSeries series, SKColor colour)
    {
        if (!series.HasBand)
        {
            return;
        }

        ChartPoint[] points = OnChart(series);
        double[] lower = [.. points.Select(p => Panel.Position(_model.Vertical, Math.Max(_model.Vertical.Minimum, p.LowerY95!.Value)))];
        double[] upper = [.. points.Select(p => Panel.Position(_model.Vertical, Math.Max(_model.Vertical.Minimum, p.UpperY95!.Value)))];
        if (points.Length > 1)
        {
            ScottPlot.Plottables.FillY band = panel.Plot.Add.FillY([.. points.Select(p => p.X)], lower, upper);
            band.FillColor = Panel.Colour(colour).WithAlpha(0.28);
            band.LineWidth = 0;
        }
    }

    private static void DrawCurve(Pen pen, Panel panel, ChartSeries series, SKColor colour, DashPattern pattern) =>
        pen.Curve([.. series.Points.Select(p => new SKPoint(panel.Column(p.X), panel.Row(p.Y)))], colour, 2, pattern, panel.Data);

    private void AddPoints(Panel panel, ChartSeries series, SKColor colour, MarkerShape shape)
    {
        foreach (ChartPoint point in OnChart(series))
        {
            double y = Panel.Position(_model.Vertical, point.Y);
            if (point.LowerY95 is > 0 and { } lower && point.UpperY95 is { } upper)
            {
                ScottPlot.Plottables.LinePlot whisker = panel.Plot.Add.Line(
                    point.X, Panel.Position(_model.Vertical, lower), point.X, Panel.Position(_model.Vertical, upper));
                whisker.LineColor = Panel.Colour(colour);
                whisker.LineWidth = 1.2f;
                whisker.MarkerSize = 0;
            }

            panel.Plot.Add.Marker(point.X, y).MarkerStyle = ChartMarker.Of(shape, 8, colour);
        }
    }

    // To the upper left of the curve there is room for the label, and to its lower right where the curve starts at the edge.
    private void DrawCriterion(Pen pen, ChartTheme theme, Panel panel, CriterionLine criterion)
    {
        float row = panel.Row(criterion.Snr);
        SKColor colour = criterion.Emphasised ? theme.Ink : theme.Quiet;
        pen.Line(panel.Data.Left, row, panel.Data.Right, row, colour, criterion.Emphasised ? 1.6f : 0.9f);
        (float x, SKTextAlign align) = LabelPlace(pen, panel, criterion);
        bool under = criterion.Crossing is not null && (IsNarrow || align == SKTextAlign.Left);
        pen.Label(criterion.Words, x, under ? row + LabelSize + 2 : row - 5, LabelSize, (colour, theme.Page), align, criterion.Emphasised);
        if (criterion.Crossing is not { } crossing)
        {
            return;
        }

        float column = panel.Column(crossing.Ev);
        if (crossing.IsBound)
        {
            new RulerMarks(pen, theme).Bound(column, row, crossing.Open);
        }
        else if (criterion.Emphasised)
        {
            pen.Line(column, row, column, panel.Data.Bottom, theme.Ink, 1.2f);
            new RulerMarks(pen, theme).ShadowEnd(column, row);
        }
    }

    private (float X, SKTextAlign Align) LabelPlace(Pen pen, Panel panel, CriterionLine criterion)
    {
        if (IsNarrow)
        {
            // The curve rises to the upper right: below the line there is room at the far end.
            return criterion.NeverReached ? (panel.Data.Left + 4, SKTextAlign.Left) : (panel.Data.Right - 4, SKTextAlign.Right);
        }

        if (criterion.NeverReached)
        {
            return (panel.Data.Left + 8, SKTextAlign.Left);
        }

        if (criterion.Crossing is not { } crossing)
        {
            return (panel.Column(_model.BrightEnd?.Ev ?? _model.Horizontal.Maximum) - 8, SKTextAlign.Right);
        }

        float column = panel.Column(crossing.Ev);
        bool fits = column - 14 - pen.Measure(criterion.Words, LabelSize, criterion.Emphasised) > panel.Data.Left;
        return fits ? (column - 14, SKTextAlign.Right) : (column + 14, SKTextAlign.Left);
    }

    private float DrawLegend(Pen pen, ChartTheme theme) =>
        new Legend(SnrLegend.Items(_model, theme)).Draw(pen, LegendLeft, _plotTop + PlotHeight + AxisRoom, Width - Edge - LegendLeft, theme);
}
