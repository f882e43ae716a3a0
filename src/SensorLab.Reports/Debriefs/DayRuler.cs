using System.Globalization;
using System.Text;
using SensorLab.Debrief;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Debriefs;

/// <summary>The day on one EV ruler, as SVG: each frame a line from its darkest to its brightest tone, on what the body holds at its ISO.</summary>
/// <remarks>Middle grey at 0, EV to the right. Frames of an ISO from the most room left to the least: their ends draw the distribution.</remarks>
internal sealed class DayRuler
{
    private const double LinesHeight = 420;
    private const double TallestRow = 14;
    private const double HeadingHeight = 24;
    private const double Gap = 12;
    private const double AxisHeight = 26;
    private const double Margin = 8;
    private const double Spare = 0.5;

    private readonly DayDebrief _day;
    private readonly double _width;
    private readonly double _low;
    private readonly double _high;
    private readonly double _row;
    private readonly StringBuilder _svg = new();

    private DayRuler(DayDebrief day, double width)
    {
        _day = day;
        _width = width;
        _low = Math.Floor(Math.Min(day.Frames.Min(f => f.DarkestEv), day.Holds.Min(h => h.TextureEv ?? 0)) - Spare);
        _high = Math.Ceiling(Math.Max(day.Holds.Max(h => h.ClipEv), day.Frames.Max(EndOf)) + Spare);
        _row = Math.Min(TallestRow, LinesHeight / day.Frames.Count);
    }

    /// <summary>The ruler.</summary>
    /// <param name="day">A day with a frame or more.</param>
    /// <param name="id">What the page's other elements are not called.</param>
    /// <param name="width">Its width in pixels.</param>
    public static string Svg(DayDebrief day, string id, double width) => new DayRuler(day, width).Write(id);

    /// <summary>The same in words.</summary>
    public static string Words(DayDebrief day) =>
        $"Frames on the ruler of EV from middle grey. {string.Join(" ", day.Isos.Select(i => WordsOf(i, day.Holds.First(h => h.Iso == i.Iso))))}";

    private static string WordsOf(IsoUse iso, IsoHold hold) => string.Create(
        CultureInfo.InvariantCulture,
        $"ISO {iso.Iso}: {iso.Frames} frames, {iso.ClippedFrames} clipped; the body holds {(hold.TextureEv is { } dark ? EvText.Signed(dark, 1) + " to " : "up to ")}{EvText.Signed(hold.ClipEv, 1)} EV.");

    private string Write(string id)
    {
        double height = AxisHeight + _day.Isos.Sum(i => HeadingHeight + (i.Frames * _row) + Gap);
        _svg.Append(CultureInfo.InvariantCulture, $"<svg viewBox=\"0 0 {_width:0} {height:0.#}\" role=\"img\" aria-labelledby=\"{id}-title {id}-words\" class=\"ruler\"><title id=\"{id}-title\">The day on one ruler</title><desc id=\"{id}-words\">{Words(_day)}</desc>");
        double y = 0;
        foreach (IsoUse iso in _day.Isos)
        {
            y = WriteIso(iso, y);
        }

        WriteAxis(height);
        return _svg.Append("</svg>").ToString();
    }

    private double WriteIso(IsoUse iso, double y)
    {
        IsoHold hold = _day.Holds.First(h => h.Iso == iso.Iso);
        double top = y + HeadingHeight;
        double height = iso.Frames * _row;
        _svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{Margin}\" y=\"{y + 17:0.#}\" class=\"iso\">ISO {iso.Iso} · {iso.Frames} {(iso.Frames == 1 ? "frame" : "frames")}</text>");
        double texture = X(hold.TextureEv ?? _low);
        double tone = X(hold.ToneEv ?? _low);
        Rect("tone", tone, texture);
        Rect("held", texture, X(hold.ClipEv));
        Paths(iso, top);
        _svg.Append(CultureInfo.InvariantCulture, $"<path class=\"clip\" d=\"M{X(hold.ClipEv):0.#} {top - 3:0.#}V{top + height + 3:0.#}\"/>");
        return top + height + Gap;

        void Rect(string kind, double from, double to) =>
            _svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"{kind}\" x=\"{from:0.#}\" y=\"{top:0.#}\" width=\"{Math.Max(0, to - from):0.#}\" height=\"{height:0.#}\"/>");
    }

    private void Paths(IsoUse iso, double top)
    {
        var ranges = new StringBuilder();
        var medians = new StringBuilder();
        var beyond = new StringBuilder();
        double at = top + (_row / 2);
        foreach (FrameDebrief frame in _day.Frames.Where(f => f.Iso == iso.Iso).OrderByDescending(f => f.ExposeToClipEv ?? f.ExposeToClipAtMostEv ?? f.HeadroomLeftEv).ThenBy(f => f.File, StringComparer.Ordinal))
        {
            ranges.Append(CultureInfo.InvariantCulture, $"M{X(frame.DarkestEv):0.#} {at:0.##}H{X(frame.BrightestEv):0.#}");
            medians.Append(CultureInfo.InvariantCulture, $"M{X(frame.MedianEv) - 1.5:0.#} {at:0.##}h3");
            if (EndOf(frame) > frame.BrightestEv)
            {
                beyond.Append(CultureInfo.InvariantCulture, $"M{X(frame.BrightestEv):0.#} {at:0.##}H{X(EndOf(frame)):0.#}");
            }

            at += _row;
        }

        string width = Math.Clamp(0.72 * _row, 0.35, 6).ToString("0.##", CultureInfo.InvariantCulture);
        _svg.Append(CultureInfo.InvariantCulture, $"<path class=\"range\" stroke-width=\"{width}\" d=\"{ranges}\"/><path class=\"median\" stroke-width=\"{width}\" d=\"{medians}\"/>");
        if (beyond.Length > 0)
        {
            _svg.Append(CultureInfo.InvariantCulture, $"<path class=\"beyond\" stroke-width=\"{width}\" d=\"{beyond}\"/>");
        }
    }

    private void WriteAxis(double height)
    {
        double y = height - AxisHeight;
        int step = _width < 500 ? 2 : 1;
        for (int ev = (int)_low; ev <= _high; ev++)
        {
            _svg.Append(CultureInfo.InvariantCulture, $"<path class=\"{(ev == 0 ? "grey" : "grid")}\" d=\"M{X(ev):0.#} 0V{y:0.#}\"/>");
            if (ev % step == 0)
            {
                _svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{X(ev):0.#}\" y=\"{y + 18:0.#}\" text-anchor=\"middle\">{EvText.WholeStop(ev)}</text>");
            }
        }
    }

    // What lies beyond the clip, where it is known or bounded, is drawn beyond it.
    private static double EndOf(FrameDebrief frame) => frame.BrightestEv + Math.Max(0, -(frame.ExposeToClipEv ?? frame.ExposeToClipAtMostEv ?? 0));

    private double X(double ev) => Margin + ((ev - _low) / (_high - _low) * (_width - (2 * Margin)));
}
