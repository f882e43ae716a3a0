using ScottPlot;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>The marks of points.</summary>
/// <remarks>
/// ScottPlot 5.1.59 lets go of the path of a triangle or a diamond while it is still being drawn: a garbage collection at
/// that moment ends the process. Shapes with corners are therefore drawn by paths of our own, held until they are drawn.
/// </remarks>
internal static class ChartMarker
{
    private const float LineWidth = 1.6f;

    // Corners on a circle of radius 1; triangles stand on it at every 120 degrees.
    private const float HalfWidth = 0.866f;
    private static readonly SKPoint[] Diamond = [new(0, -1), new(1, 0), new(0, 1), new(-1, 0)];
    private static readonly SKPoint[] Up = [new(0, -1), new(HalfWidth, 0.5f), new(-HalfWidth, 0.5f)];
    private static readonly SKPoint[] Down = [new(0, 1), new(HalfWidth, -0.5f), new(-HalfWidth, -0.5f)];

    /// <summary>How a mark looks.</summary>
    /// <param name="shape">Its shape.</param>
    /// <param name="size">Its diameter in units of the canvas.</param>
    /// <param name="colour">Its colour.</param>
    public static MarkerStyle Of(MarkerShape shape, float size, SKColor colour) =>
        new(shape, size, Panel.Colour(colour)) { LineWidth = LineWidth, CustomRenderer = CornersOf(shape) };

    /// <summary>Draws one mark outside a plot.</summary>
    /// <param name="canvas">Where to.</param>
    /// <param name="style">How it looks.</param>
    /// <param name="x">Column of its centre.</param>
    /// <param name="y">Row of its centre.</param>
    public static void Draw(SKCanvas canvas, MarkerStyle style, float x, float y)
    {
        using var paint = Paint.NewDisposablePaint();
        style.Render(canvas, new Pixel(x, y), paint);
    }

    private static IMarker? CornersOf(MarkerShape shape) => shape switch
    {
        MarkerShape.FilledDiamond => new Corners(Diamond, isFilled: true),
        MarkerShape.OpenDiamond => new Corners(Diamond, isFilled: false),
        MarkerShape.FilledTriangleUp => new Corners(Up, isFilled: true),
        MarkerShape.OpenTriangleUp => new Corners(Up, isFilled: false),
        MarkerShape.FilledTriangleDown => new Corners(Down, isFilled: true),
        MarkerShape.OpenTriangleDown => new Corners(Down, isFilled: false),
        _ => null,
    };

    private sealed class Corners(SKPoint[] corners, bool isFilled) : IMarker
    {
        public void Render(SKCanvas canvas, Paint paint, Pixel center, float size, MarkerStyle markerStyle)
        {
            float radius = size / 2;
            using var path = new SKPath();
            path.AddPoly([.. corners.Select(c => new SKPoint(center.X + (radius * c.X), center.Y + (radius * c.Y)))], close: true);
            using var ink = new SKPaint
            {
                IsAntialias = true,
                IsStroke = !isFilled,
                StrokeWidth = markerStyle.LineWidth,
                Color = (isFilled ? markerStyle.FillColor : markerStyle.LineColor).ToSKColor(),
            };
            canvas.DrawPath(path, ink);
        }
    }
}
