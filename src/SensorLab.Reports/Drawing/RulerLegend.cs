using System.Globalization;
using SensorLab.Files;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>What the signs of a latitude ruler mean; only the signs that it shows.</summary>
internal static class RulerLegend
{
    /// <summary>The entries.</summary>
    /// <param name="model">The ruler.</param>
    /// <param name="theme">Its colours.</param>
    public static IReadOnlyList<LegendItem> Items(LatitudeRulerModel model, ChartTheme theme)
    {
        var items = new List<LegendItem>();
        EvMark[] marks = [.. model.Rows.SelectMany(row => row.Marks)];
        void Add(bool shown, string text, Action<RulerMarks, float, float> sign)
        {
            if (shown)
            {
                items.Add(new LegendItem(text, (pen, x, y) => sign(new RulerMarks(pen, theme), x, y)));
            }
        }

        Add(model.Rows.Any(r => r.ShadowEnd is { IsBound: false }), "shadow end, SNR 10", (m, x, y) => m.ShadowEnd(x, y));
        Add(model.Rows.Any(r => r.BrightEnd is { IsBound: false }), "bright end", (m, x, y) => m.BrightEnd(x, y));
        Add(model.Rows.Any(r => r.FirstClip is not null), "first 0.1 % of pixels clip", (m, x, y) => m.FirstClip(x, y + 14));
        Add(model.Rows.Any(r => r.PreviewClip is not null), Preview(model), (m, x, y) => m.PreviewClip(x, y - 14));
        Add(Array.Exists(marks, mark => mark.IsBound), "only a bound is known: the end lies here or further that way", (m, x, y) => m.Bound(x - 12, y, OpenSide.Highlight));
        AddTaper(items, model, theme);
        Add(Array.Exists(marks, mark => !mark.IsBound), "95 % interval around the estimate, magnified", (m, x, y) => m.Interval(x - 10, x, x + 10, y));
        Add(model.Rows.Any(r => r.MeterStandardUncertaintyEv is > 0), Meter(model), (m, x, y) => m.Meter(x - 8, x + 8, y - 15));
        return items;
    }

    private static void AddTaper(List<LegendItem> items, LatitudeRulerModel model, ChartTheme theme)
    {
        double[] criteria = [.. model.Rows.SelectMany(r => r.ShadowEnds).Where(e => e.Mark is not null).Select(e => e.Snr).Distinct().OrderDescending()];
        if (criteria.Length > 1)
        {
            string list = string.Join(", ", criteria.Select(snr => snr.ToString("0.##", CultureInfo.InvariantCulture)));
            items.Add(new LegendItem($"the bar thins towards shadow where SNR falls to {list}", (pen, x, y) => DrawTaper(pen, theme, x, y)));
        }
    }

    private static void DrawTaper(Pen pen, ChartTheme theme, float x, float y)
    {
        for (int tier = 0; tier < 4; tier++)
        {
            float half = RulerRowDrawing.HalfHeight(tier + 1);
            pen.Box(SKRect.Create(x + 8 - (tier * 8), y - half, 8, 2 * half), theme.Shadow);
        }
    }

    private static string Preview(LatitudeRulerModel model)
    {
        string[] looks = [.. model.Rows.Select(r => r.PreviewLook).OfType<string>().Distinct()];
        return looks.Length == 1 ? $"the camera's preview clips (look: {ForeignText.OneLine(looks[0])})" : "the camera's preview clips, in its most truthful look";
    }

    private static string Meter(LatitudeRulerModel model)
    {
        double[] all = [.. model.Rows.Select(r => r.MeterStandardUncertaintyEv).OfType<double>().Distinct().Order()];
        string size = string.Join(" to ", new[] { all.FirstOrDefault(), all.LastOrDefault() }
            .Select(ev => ev.ToString("0.00", CultureInfo.InvariantCulture))
            .Distinct());
        return $"the meter's zero ± its own standard uncertainty ({size} EV): it moves all marks of a row together and is not in their intervals";
    }
}
