using System.Globalization;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>What the lines and points of an SNR chart mean; only those that it shows.</summary>
internal static class SnrLegend
{
    /// <summary>The entries.</summary>
    /// <param name="model">The chart.</param>
    /// <param name="theme">Its colours.</param>
    public static IReadOnlyList<LegendItem> Items(SnrChartModel model, ChartTheme theme)
    {
        var items = new List<LegendItem>();
        void Add(bool shown, string text, Action<Pen, float, float> sign)
        {
            if (shown)
            {
                items.Add(new LegendItem(text, sign));
            }
        }

        Add(model.Total.Points.Count > 0, model.Total.Label, (pen, x, y) => pen.Line(x - 18, y, x + 18, y, theme.Shadow, 2));
        Add(model.Temporal.Points.Count > 0, model.Temporal.Label, (pen, x, y) => pen.Curve([new(x - 18, y), new(x + 18, y)], theme.Warm, 2, DashPattern.Dashed));
        Add(model.MeasuredTotal.Points.Count > 0, model.MeasuredTotal.Label, (pen, x, y) => DrawDot(pen, x, y, theme.Shadow));
        Add(model.MeasuredTemporal.Points.Count > 0, model.MeasuredTemporal.Label, (pen, x, y) => DrawDiamond(pen, x, y, theme.Warm));
        Add(model.Total.HasBand || model.Temporal.HasBand, "95 % interval (often within the line)", (pen, x, y) => pen.Box(SKRect.Create(x - 14, y - 5, 28, 10), theme.Shadow.WithAlpha(72)));
        string levels = model.ClippedLevels == 1 ? "1 level clips and is" : string.Create(CultureInfo.InvariantCulture, $"{model.ClippedLevels} levels clip and are");
        Add(model.ClippedLevels > 0, $"{levels} not drawn", (pen, x, y) => pen.Text("×", x, y + 5, 15, theme.Quiet, SKTextAlign.Center));
        return items;
    }

    private static void DrawDot(Pen pen, float x, float y, SKColor colour)
    {
        using var paint = new SKPaint { Color = colour, IsAntialias = true };
        pen.Canvas.DrawCircle(x, y, 4, paint);
    }

    private static void DrawDiamond(Pen pen, float x, float y, SKColor colour) =>
        pen.Shape([new(x, y - 5), new(x + 5, y), new(x, y + 5), new(x - 5, y)], null, colour);
}
