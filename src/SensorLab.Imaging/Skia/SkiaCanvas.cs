using SensorLab.Frames;
using SkiaSharp;

namespace SensorLab.Imaging.Skia;

/// <summary>A picture drawn by Skia.</summary>
internal sealed class SkiaCanvas : IFieldCanvas
{
    private const string FontFamily = "DejaVu Sans";

    /// <summary>Pixels an em at scale 1: capitals are some 0.73 of it.</summary>
    private const double EmPixels = 28;

    private const int PixelBytes = 4;

    private readonly SKBitmap _picture;
    private readonly SKCanvas _canvas;
    private readonly SKTypeface _typeface = SKTypeface.FromFamilyName(FontFamily);

    public SkiaCanvas(int widthCells, int heightCells, byte[] greys, int factor)
    {
        _picture = new SKBitmap(new SKImageInfo(widthCells * factor, heightCells * factor, SKColorType.Rgba8888, SKAlphaType.Opaque));
        Span<byte> pixels = _picture.GetPixelSpan();
        for (int y = 0; y < _picture.Height; y++)
        {
            ReadOnlySpan<byte> cells = greys.AsSpan(y / factor * widthCells, widthCells);
            Span<byte> row = pixels.Slice(y * _picture.RowBytes, _picture.Width * PixelBytes);
            row.Fill(byte.MaxValue);
            for (int x = 0; x < _picture.Width; x++)
            {
                row.Slice(x * PixelBytes, PixelBytes - 1).Fill(cells[x / factor]);
            }
        }

        _canvas = new SKCanvas(_picture);
    }

    public int Width => _picture.Width;

    public int Height => _picture.Height;

    public void Line((int X, int Y) from, (int X, int Y) to, MarkColour colour, int thickness)
    {
        int left = Math.Min(from.X, to.X) - (thickness / 2);
        int top = Math.Min(from.Y, to.Y) - (thickness / 2);
        Fill(new PixelRectangle(left, top, Math.Abs(to.X - from.X) + thickness, Math.Abs(to.Y - from.Y) + thickness), colour);
    }

    public void Fill(PixelRectangle rectangle, MarkColour colour)
    {
        using var paint = new SKPaint { Color = Ink(colour), IsAntialias = false };
        _canvas.DrawRect(rectangle.X, rectangle.Y, rectangle.Width, rectangle.Height, paint);
    }

    public (int Width, int Ascent, int Descent) SizeOf(string text, double scale)
    {
        using SKFont font = Font(scale);
        font.MeasureText(text, out SKRect bounds);
        return ((int)Math.Ceiling(bounds.Right), (int)Math.Ceiling(-bounds.Top), (int)Math.Ceiling(Math.Max(0, bounds.Bottom)));
    }

    public void Write(string text, double scale, (int X, int Y) start, MarkColour colour)
    {
        using SKFont font = Font(scale);
        using var paint = new SKPaint { Color = Ink(colour), IsAntialias = true };
        _canvas.DrawText(text, start.X, start.Y, font, paint);
    }

    public byte[] Png()
    {
        using SKData png = _picture.Encode(SKEncodedImageFormat.Png, quality: 100);
        return png.ToArray();
    }

    public void Dispose()
    {
        _canvas.Dispose();
        _typeface.Dispose();
        _picture.Dispose();
    }

    private static SKColor Ink(MarkColour colour) => new(colour.Red, colour.Green, colour.Blue);

    private SKFont Font(double scale) => new(_typeface, (float)(EmPixels * scale));
}
