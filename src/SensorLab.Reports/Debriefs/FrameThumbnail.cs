using SensorLab.Debrief;
using SkiaSharp;

namespace SensorLab.Reports.Debriefs;

/// <summary>A frame's small picture as a file for the page: upright, what clipped hatched in orange, what sank in blue.</summary>
internal static class FrameThumbnail
{
    private const float Quality = 70;
    private const int PixelBytes = 4;
    private const int HatchPeriod = 4;

    // Okabe and Ito's orange and blue, as in the charts; the hatch tells what clipped without its hue.
    private static readonly SKColor Orange = SKColor.Parse("#E69F00");
    private static readonly SKColor DarkOrange = SKColor.Parse("#7A3E00");
    private static readonly SKColor Blue = SKColor.Parse("#0072B2");

    /// <summary>The width and height of the picture as it is shown.</summary>
    public static (int Width, int Height) SizeOf(FramePicture picture) =>
        int.IsOddInteger(picture.QuarterTurns) ? (picture.HeightPixels, picture.WidthPixels) : (picture.WidthPixels, picture.HeightPixels);

    /// <summary>The picture as WebP.</summary>
    public static byte[] WebP(FramePicture picture)
    {
        (int width, int height) = SizeOf(picture);
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        Span<byte> pixels = bitmap.GetPixelSpan();
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                SKColor ink = Ink(picture.Codes[SourceOf(picture, x, y)], x, y);
                Span<byte> pixel = pixels.Slice((y * bitmap.RowBytes) + (x * PixelBytes), PixelBytes);
                (pixel[0], pixel[1], pixel[2], pixel[3]) = (ink.Red, ink.Green, ink.Blue, byte.MaxValue);
            }
        }

        using SKPixmap map = bitmap.PeekPixels();
        using SKData data = map.Encode(new SKWebpEncoderOptions(SKWebpEncoderCompression.Lossy, Quality)) ?? throw new InvalidOperationException("The WebP encoder gave nothing.");
        return data.ToArray();
    }

    // Where a pixel of the upright picture lies in the sensor's: turned clockwise, what was at the left is at the top.
    private static int SourceOf(FramePicture picture, int x, int y)
    {
        (int w, int h) = (picture.WidthPixels, picture.HeightPixels);
        (int column, int row) = picture.QuarterTurns switch
        {
            1 => (y, h - 1 - x),
            2 => (w - 1 - x, h - 1 - y),
            3 => (w - 1 - y, x),
            _ => (x, y),
        };
        return (row * w) + column;
    }

    private static SKColor Ink(byte code, int x, int y) => code switch
    {
        FramePicture.Clipped => (x + y) % HatchPeriod < HatchPeriod / 2 ? Orange : DarkOrange,
        FramePicture.Sunk => Blue,
        >= FramePicture.Sinking => Tinted((code - FramePicture.Sinking) * 255 / FramePicture.SinkingGreys),
        _ => Grey(code * 255 / FramePicture.Greys),
    };

    private static SKColor Grey(int grey) => new((byte)grey, (byte)grey, (byte)grey);

    // Half the way to blue, as light as the grey.
    private static SKColor Tinted(int grey) => new((byte)(grey / 2), (byte)((grey + Blue.Green) / 2), (byte)((grey + Blue.Blue) / 2));
}
