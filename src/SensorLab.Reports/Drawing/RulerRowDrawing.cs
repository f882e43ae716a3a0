using System.Globalization;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Draws one ISO of the latitude ruler.</summary>
/// <param name="pen">What draws.</param>
/// <param name="theme">Its colours.</param>
/// <param name="ruler">The ruler that it lies on.</param>
internal sealed class RulerRowDrawing(Pen pen, ChartTheme theme, Panel ruler)
{
    private const float LabelSize = 11.5f;

    // Interval whiskers shorter than the marks would only thicken them.
    private const float LeastWhisker = 5;

    private readonly RulerMarks _marks = new(pen, theme);

    /// <summary>Half the height of the bar below so many criteria.</summary>
    /// <param name="criteriaPassed">How many criteria the SNR has fallen below.</param>
    public static float HalfHeight(int criteriaPassed) => RulerMarks.HalfBar * MathF.Pow(0.64f, criteriaPassed);

    /// <summary>Draws the row.</summary>
    /// <param name="row">The ISO.</param>
    /// <param name="middle">The middle of its bar.</param>
    /// <param name="withCriteria">Whether the criteria's numbers are printed.</param>
    public void Draw(LatitudeRow row, float middle, bool withCriteria)
    {
        DrawBar(row, middle);
        foreach (ShadowMark end in row.ShadowEnds.Where(e => e.Mark is { IsBound: false } && !e.IsDefault))
        {
            _marks.Criterion(ruler.Column(end.Mark!.Value.Ev), middle);
        }

        DrawEnd(row.ShadowEnd, middle, _marks.ShadowEnd);
        DrawEnd(row.BrightEnd, middle, _marks.BrightEnd);
        foreach (ShadowMark end in row.ShadowEnds.Where(e => e.Mark is { IsBound: true } && !e.IsDefault))
        {
            _marks.Bound(ruler.Column(end.Mark!.Value.Ev), middle, end.Mark.Value.Open);
        }

        if (row.FirstClip is { IsBound: false } clip)
        {
            _marks.FirstClip(ruler.Column(clip.Ev), middle);
        }

        DrawEnd(row.PreviewClip, middle, _marks.PreviewClip);
        if (row.MeterStandardUncertaintyEv is > 0 and { } meter)
        {
            _marks.Meter(ruler.Column(-meter), ruler.Column(meter), middle);
        }

        if (withCriteria)
        {
            DrawCriteria(row, middle - RulerMarks.HalfBar - 6);
        }
    }

    private void DrawEnd(EvMark? mark, float middle, Action<float, float> sign)
    {
        if (mark is not { } end)
        {
            return;
        }

        float column = ruler.Column(end.Ev);
        if (end.IsBound)
        {
            _marks.Bound(column, middle, end.Open);
            return;
        }

        (float left, float right) = (ruler.Column(end.Lower95), ruler.Column(end.Upper95));
        if (right - left >= LeastWhisker)
        {
            _marks.Interval(left, column, right, middle);
        }

        sign(column, middle);
    }

    // From the bright end (middle grey where there is none) down through the criteria, thinner after each; a criterion that is
    // never met counts as passed, so that one height means one SNR on every row.
    private void DrawBar(LatitudeRow row, float middle)
    {
        double from = row.BrightEnd?.Ev ?? 0;
        foreach ((int passed, ShadowMark end) in row.ShadowEnds.Index().Where(e => e.Item.Mark is not null))
        {
            double to = Math.Min(from, end.Mark!.Value.Ev);
            DrawSpan(from, to, middle, HalfHeight(passed));
            from = to;
        }

        if (row.ShadowEnds.All(e => e.Mark is null))
        {
            DrawSpan(from, Math.Min(0, from), middle, HalfHeight(0));
        }
    }

    private void DrawSpan(double from, double to, float middle, float half)
    {
        DrawPart(Math.Max(to, 0), Math.Max(from, 0), theme.Headroom);
        DrawPart(Math.Min(to, 0), Math.Min(from, 0), theme.Shadow);

        void DrawPart(double low, double high, SKColor colour)
        {
            if (high > low)
            {
                pen.Box(new SKRect(ruler.Column(low), middle - half, ruler.Column(high), middle + half), colour);
            }
        }
    }

    // The criterion that counts is placed first; others only where they don't run into it.
    private void DrawCriteria(LatitudeRow row, float baseline)
    {
        var taken = new List<(float Left, float Right)>();
        foreach (ShadowMark end in row.ShadowEnds.Where(e => e.Mark is not null).OrderByDescending(e => e.IsDefault))
        {
            string label = end.Snr.ToString("0.##", CultureInfo.InvariantCulture);
            float half = (pen.Measure(label, LabelSize, end.IsDefault) / 2) + 3;
            float column = ruler.Column(end.Mark!.Value.Ev);
            if (!taken.Exists(t => column - half < t.Right && column + half > t.Left))
            {
                taken.Add((column - half, column + half));
                pen.Text(label, column, baseline, LabelSize, end.IsDefault ? theme.Ink : theme.Quiet, SKTextAlign.Center, end.IsDefault);
            }
        }
    }
}
