using SensorLab.Files;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Draws words and plain shapes; lengths are in units of the canvas.</summary>
/// <param name="canvas">What is drawn on.</param>
/// <param name="font">What words are set in.</param>
internal sealed class Pen(SKCanvas canvas, ChartFont font)
{
    // Distance of baselines over the size of the letters.
    private const float Leading = 1.36f;

    /// <summary>What is drawn on.</summary>
    public SKCanvas Canvas => canvas;

    /// <summary>Words on one line; control characters are left out.</summary>
    /// <param name="text">The words.</param>
    /// <param name="x">Where they start, centre or end.</param>
    /// <param name="baseline">The baseline.</param>
    /// <param name="size">Size of the letters.</param>
    /// <param name="colour">Their colour.</param>
    /// <param name="align">What <paramref name="x"/> is of them.</param>
    /// <param name="bold">Whether they are bold.</param>
    /// <param name="goesOn">Whether the sentence goes on in another line: a space that nobody sees then parts the words for who hears them.</param>
    public void Text(string text, float x, float baseline, float size, SKColor colour, SKTextAlign align = SKTextAlign.Left, bool bold = false, bool goesOn = false)
    {
        string line = ForeignText.OneLine(text);
        using SKFont face = font.At(size, bold);
        using SKPaint paint = Fill(colour);
        float start = align switch
        {
            SKTextAlign.Center => x - (face.MeasureText(line) / 2),
            SKTextAlign.Right => x - face.MeasureText(line),
            _ => x,
        };
        canvas.DrawText(goesOn ? line + " " : line, start, baseline, SKTextAlign.Left, face, paint);
    }

    /// <summary>Words on one line that blot out what lies behind them.</summary>
    /// <param name="text">The words.</param>
    /// <param name="x">Where they start or end.</param>
    /// <param name="baseline">The baseline.</param>
    /// <param name="size">Size of the letters.</param>
    /// <param name="colours">The colour of the letters, and of the ground.</param>
    /// <param name="align">Left or right: what <paramref name="x"/> is of them.</param>
    /// <param name="bold">Whether they are bold.</param>
    public void Label(string text, float x, float baseline, float size, (SKColor Letters, SKColor Ground) colours, SKTextAlign align, bool bold)
    {
        float width = Measure(text, size, bold);
        float left = align == SKTextAlign.Right ? x - width : x;
        Box(new SKRect(left - 2, baseline - (size * 0.8f), left + width + 2, baseline + (size * 0.2f)), colours.Ground);
        Text(text, left, baseline, size, colours.Letters, SKTextAlign.Left, bold);
    }

    /// <summary>Words set upright along a vertical axis, read from below.</summary>
    /// <param name="text">The words.</param>
    /// <param name="x">The baseline's column.</param>
    /// <param name="centreY">The middle of the words.</param>
    /// <param name="size">Size of the letters.</param>
    /// <param name="colour">Their colour.</param>
    public void Upright(string text, float x, float centreY, float size, SKColor colour)
    {
        canvas.Save();
        canvas.Translate(x, centreY);
        canvas.RotateDegrees(-90);
        Text(text, 0, 0, size, colour, SKTextAlign.Center);
        canvas.Restore();
    }

    /// <summary>Words on as many lines as they need.</summary>
    /// <param name="text">The words.</param>
    /// <param name="x">Left edge.</param>
    /// <param name="top">Top of the first line.</param>
    /// <param name="width">Width to keep within.</param>
    /// <param name="size">Size of the letters.</param>
    /// <param name="colour">Their colour.</param>
    /// <param name="bold">Whether they are bold.</param>
    /// <param name="goesOn">Whether the sentence goes on behind them.</param>
    /// <returns>The bottom of the last line.</returns>
    public float Paragraph(string text, float x, float top, float width, float size, SKColor colour, bool bold = false, bool goesOn = false)
    {
        float bottom = top;
        foreach (string line in TextLines.WrapWithoutOrphan(text, width, words => Measure(words, size, bold)))
        {
            bottom += size * Leading;
            Text(line, x, bottom - (size * (Leading - 1.02f)), size, colour, SKTextAlign.Left, bold, goesOn);
        }

        return bottom;
    }

    /// <summary>The width of words.</summary>
    /// <param name="text">The words.</param>
    /// <param name="size">Size of the letters.</param>
    /// <param name="bold">Whether they are bold.</param>
    public float Measure(string text, float size, bool bold = false)
    {
        using SKFont face = font.At(size, bold);
        return face.MeasureText(ForeignText.OneLine(text));
    }

    /// <summary>A straight line.</summary>
    /// <param name="x1">Its start.</param>
    /// <param name="y1">Its start.</param>
    /// <param name="x2">Its end.</param>
    /// <param name="y2">Its end.</param>
    /// <param name="colour">Its colour.</param>
    /// <param name="width">Its width.</param>
    public void Line(float x1, float y1, float x2, float y2, SKColor colour, float width)
    {
        using SKPaint paint = Stroke(colour, width);
        canvas.DrawLine(x1, y1, x2, y2, paint);
    }

    /// <summary>A line of many corners, broken or not, within an area.</summary>
    /// <param name="points">Its corners.</param>
    /// <param name="colour">Its colour.</param>
    /// <param name="width">Its width.</param>
    /// <param name="pattern">How it is broken.</param>
    /// <param name="area">What lies outside is cut off; null for nothing.</param>
    public void Curve(IReadOnlyList<SKPoint> points, SKColor colour, float width, DashPattern pattern, SKRect? area = null)
    {
        if (points.Count < 2)
        {
            return;
        }

        using SKPath path = DashedPath.Of(points, pattern);
        using SKPaint paint = Stroke(colour, width);
        canvas.Save();
        if (area is { } edges)
        {
            canvas.ClipRect(edges);
        }

        canvas.DrawPath(path, paint);
        canvas.Restore();
    }

    /// <summary>A filled rectangle.</summary>
    /// <param name="box">Its edges.</param>
    /// <param name="colour">Its colour.</param>
    public void Box(SKRect box, SKColor colour)
    {
        using SKPaint paint = Fill(colour);
        canvas.DrawRect(box, paint);
    }

    /// <summary>A closed shape.</summary>
    /// <param name="corners">Its corners.</param>
    /// <param name="fill">What fills it; null for an outline alone.</param>
    /// <param name="outline">Its outline; null for none.</param>
    public void Shape(ReadOnlySpan<SKPoint> corners, SKColor? fill, SKColor? outline = null)
    {
        using var path = new SKPath();
        path.AddPoly(corners, close: true);
        if (fill is { } inside)
        {
            using SKPaint paint = Fill(inside);
            canvas.DrawPath(path, paint);
        }

        if (outline is { } edge)
        {
            using SKPaint paint = Stroke(edge, 1.5f);
            canvas.DrawPath(path, paint);
        }
    }

    private static SKPaint Fill(SKColor colour) => new() { Color = colour, IsAntialias = true };

    private static SKPaint Stroke(SKColor colour, float width) =>
        new() { Color = colour, IsAntialias = true, IsStroke = true, StrokeWidth = width };
}
