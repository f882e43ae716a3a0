using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>A chart as a file's bytes; the same chart gives the same bytes.</summary>
internal static class ChartImage
{
    // Pixels of the PNG a pixel of the layout: sharp on dense screens and in print at 180 mm (270 dpi).
    private const float PngScale = 2;

    /// <summary>The chart as SVG with real text.</summary>
    /// <param name="drawing">The chart.</param>
    /// <param name="theme">Its colours.</param>
    public static byte[] Svg(ChartDrawing drawing, ChartTheme theme)
    {
        SKRect bounds = SKRect.Create(ChartDrawing.Width, drawing.Height);
        using var stream = new MemoryStream();
        using (SKCanvas canvas = SKSvgCanvas.Create(bounds, stream))
        {
            drawing.Draw(canvas, theme);
        }

        return SvgFinish.Finish(stream.ToArray(), drawing.Heading.Title, drawing.Heading.AlternativeText, bounds.Size, "px");
    }

    /// <summary>The chart as PNG.</summary>
    /// <param name="drawing">The chart.</param>
    /// <param name="theme">Its colours.</param>
    public static byte[] Png(ChartDrawing drawing, ChartTheme theme)
    {
        var size = new SKImageInfo((int)(ChartDrawing.Width * PngScale), (int)MathF.Ceiling(drawing.Height * PngScale), SKColorType.Rgba8888, SKAlphaType.Opaque);
        using SKSurface surface = SKSurface.Create(size);
        surface.Canvas.Clear(theme.Page);
        surface.Canvas.Scale(PngScale);
        drawing.Draw(surface.Canvas, theme);
        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }
}
