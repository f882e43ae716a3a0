using ScottPlot;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Drawing;

/// <summary>What the signs of a chart of panels mean; only those that it shows.</summary>
internal static class PlotLegend
{
    private const float MarkerSize = 8;

    /// <summary>The entries.</summary>
    /// <param name="model">The chart.</param>
    /// <param name="theme">Its colours.</param>
    public static IReadOnlyList<LegendItem> Items(PlotModel model, ChartTheme theme)
    {
        PlotSeries[] drawn = [.. model.Panels.SelectMany(p => p.Series).Where(s => s.Points.Count > 0)];
        var items = new List<LegendItem>();
        foreach (PlotSeries series in drawn.DistinctBy(s => s.Label))
        {
            items.Add(new LegendItem(series.Label, (pen, x, y) => Sign(pen, series, theme, x, y)));
        }

        PlotPoint[] points = [.. drawn.SelectMany(s => s.Points)];
        AddPointKinds(items, drawn, points, theme);
        if (drawn.Any(s => model.Panels.Where(p => p.Series.Contains(s)).Any(p => s.Points.Any(q => q.Y > p.Vertical.Maximum || q.Y < p.Vertical.Minimum))))
        {
            items.Add(new LegendItem("beyond the scale", (pen, x, y) => pen.Shape([new(x, y - 5), new(x - 5, y + 4), new(x + 5, y + 4)], null, theme.Ink)));
        }

        return items;
    }

    private static void AddPointKinds(List<LegendItem> items, PlotSeries[] drawn, PlotPoint[] points, ChartTheme theme)
    {
        if (Array.Exists(points, p => p.LowerX95 is not null || p.LowerY95 is not null))
        {
            items.Add(new LegendItem("95 % interval (often within the marker)", (pen, x, y) =>
            {
                pen.Line(x, y - 9, x, y + 9, theme.Ink, 1.3f);
                pen.Box(SkiaSharp.SKRect.Create(x - 2.5f, y - 2.5f, 5, 5), theme.Ink);
            }));
        }

        if (Array.Exists(points, p => p.IsAtMost))
        {
            items.Add(new LegendItem("not found: at most this, 95 %", (pen, x, y) =>
            {
                Marker(pen, MarkerShape.OpenSquare, ChannelStyle.Of("ink", theme), x, y - 4);
                pen.Line(x, y, x, y + 10, theme.Ink, 1.3f);
            }));
        }

        if (Array.Exists(points, p => p.IsHollow && !p.IsAtMost))
        {
            bool isIso = drawn.Any(s => s.Label.StartsWith("SNR", StringComparison.Ordinal));
            string words = isIso ? "hollow: gain switch, push or pull, named beside it" : "hollow: does not count for the figure";
            items.Add(new LegendItem(words, (pen, x, y) => Marker(pen, MarkerShape.OpenCircle, ChannelStyle.Of("ink", theme), x, y)));
        }

        if (Array.Exists(points, p => p.Open != OpenSide.None))
        {
            items.Add(new LegendItem("only a bound is known: it lies here or further that way", (pen, x, y) => new RulerMarks(pen, theme).Bound(x - 12, y, OpenSide.Highlight)));
        }
    }

    private static void Sign(Pen pen, PlotSeries series, ChartTheme theme, float x, float y)
    {
        ChannelStyle style = ChannelStyle.Of(series.Style, theme);
        if (series.Form != PlotForm.Points)
        {
            pen.Curve([new(x - 18, y), new(x + 18, y)], style.Colour, 1.8f, style.Line);
        }

        if (series.Form != PlotForm.Line)
        {
            Marker(pen, style.Filled, style, x, y);
        }
    }

    private static void Marker(Pen pen, MarkerShape shape, ChannelStyle style, float x, float y) =>
        ChartMarker.Draw(pen.Canvas, ChartMarker.Of(shape, MarkerSize, style.Colour), x, y);
}
