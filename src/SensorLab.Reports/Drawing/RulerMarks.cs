using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>The signs of the latitude ruler, the same on the ruler and in its legend.</summary>
/// <param name="pen">What draws.</param>
/// <param name="theme">Their colours.</param>
internal sealed class RulerMarks(Pen pen, ChartTheme theme)
{
    /// <summary>Half the height of a bar at its full height.</summary>
    public const float HalfBar = 9;

    /// <summary>The bright end: an upright stroke.</summary>
    /// <param name="x">Column.</param>
    /// <param name="y">Middle of the row.</param>
    public void BrightEnd(float x, float y) => pen.Line(x, y - HalfBar - 3, x, y + HalfBar + 3, theme.Ink, 2.6f);

    /// <summary>The shadow end at SNR 10: an upright stroke with a diamond.</summary>
    /// <param name="x">Column.</param>
    /// <param name="y">Middle of the row.</param>
    public void ShadowEnd(float x, float y)
    {
        const float size = 6;
        pen.Line(x, y - HalfBar - 3, x, y + HalfBar + 3, theme.Ink, 2.6f);
        pen.Shape([new(x, y - size), new(x + size, y), new(x, y + size), new(x - size, y)], theme.Ink, theme.Page);
    }

    /// <summary>Another criterion: a thin stroke.</summary>
    /// <param name="x">Column.</param>
    /// <param name="y">Middle of the row.</param>
    public void Criterion(float x, float y) => pen.Line(x, y - HalfBar, x, y + HalfBar, theme.Ink, 1.2f);

    /// <summary>The first clip: a filled triangle above the bar.</summary>
    /// <param name="x">Column.</param>
    /// <param name="y">Middle of the row.</param>
    public void FirstClip(float x, float y) =>
        pen.Shape([new(x - 5, y - HalfBar - 10), new(x + 5, y - HalfBar - 10), new(x, y - HalfBar - 1)], theme.Ink);

    /// <summary>The preview's clip: a hollow triangle below the bar.</summary>
    /// <param name="x">Column.</param>
    /// <param name="y">Middle of the row.</param>
    public void PreviewClip(float x, float y) =>
        pen.Shape([new(x - 5, y + HalfBar + 10), new(x + 5, y + HalfBar + 10), new(x, y + HalfBar + 1)], theme.Page, theme.Ink);

    /// <summary>An arrow to the side on which a bound leaves the truth open.</summary>
    /// <param name="x">Column of the bound.</param>
    /// <param name="y">Middle of the row.</param>
    /// <param name="open">The open side.</param>
    public void Bound(float x, float y, OpenSide open)
    {
        float way = open == OpenSide.Highlight ? 1 : -1;
        const float length = 20;
        pen.Line(x, y, x + (way * length), y, theme.Ink, 2);
        pen.Shape([new(x + (way * (length + 6)), y), new(x + (way * (length - 3)), y - 5), new(x + (way * (length - 3)), y + 5)], theme.Ink);
    }

    /// <summary>A 95 % interval with its estimate.</summary>
    /// <param name="left">Column of the lower end.</param>
    /// <param name="middle">Column of the estimate.</param>
    /// <param name="right">Column of the upper end.</param>
    /// <param name="y">Middle.</param>
    public void Interval(float left, float middle, float right, float y)
    {
        pen.Line(left, y, right, y, theme.Ink, 2);
        pen.Line(left, y - 4, left, y + 4, theme.Ink, 1.5f);
        pen.Line(right, y - 4, right, y + 4, theme.Ink, 1.5f);
        pen.Box(SKRect.Create(middle - 2.5f, y - 2.5f, 5, 5), theme.Ink);
    }

    /// <summary>What the meter's own uncertainty spans around middle grey.</summary>
    /// <param name="left">Column of its lower end.</param>
    /// <param name="right">Column of its upper end.</param>
    /// <param name="y">Middle of the row.</param>
    public void Meter(float left, float right, float y)
    {
        float line = y + HalfBar + 6;
        pen.Line(left, line, right, line, theme.Ink, 1.2f);
        pen.Line(left, line - 3, left, line + 3, theme.Ink, 1.2f);
        pen.Line(right, line - 3, right, line + 3, theme.Ink, 1.2f);
    }
}
