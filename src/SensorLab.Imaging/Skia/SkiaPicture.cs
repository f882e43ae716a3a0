using SensorLab.Frames;
using SkiaSharp;

namespace SensorLab.Imaging.Skia;

/// <summary>A picture decoded by Skia: red, green, blue and a filling byte a pixel.</summary>
internal sealed class SkiaPicture(SKBitmap picture) : IDecodedPicture
{
    private const int PixelBytes = 4;

    public JpegCodes Codes(PixelRectangle part)
    {
        long[] red = new long[JpegCodes.Codes];
        long[] green = new long[JpegCodes.Codes];
        long[] blue = new long[JpegCodes.Codes];
        ReadOnlySpan<byte> pixels = picture.GetPixelSpan();
        for (int y = part.Y; y < part.Bottom; y++)
        {
            ReadOnlySpan<byte> row = pixels.Slice((y * picture.RowBytes) + (part.X * PixelBytes), part.Width * PixelBytes);
            for (int i = 0; i < row.Length; i += PixelBytes)
            {
                red[row[i]]++;
                green[row[i + 1]]++;
                blue[row[i + 2]]++;
            }
        }

        return new JpegCodes(red, green, blue);
    }

    public MeanCodes Mean(PixelRectangle part)
    {
        (long red, long green, long blue) = (0, 0, 0);
        ReadOnlySpan<byte> pixels = picture.GetPixelSpan();
        for (int y = part.Y; y < part.Bottom; y++)
        {
            ReadOnlySpan<byte> row = pixels.Slice((y * picture.RowBytes) + (part.X * PixelBytes), part.Width * PixelBytes);
            for (int i = 0; i < row.Length; i += PixelBytes)
            {
                red += row[i];
                green += row[i + 1];
                blue += row[i + 2];
            }
        }

        double count = part.Area;
        return new MeanCodes(red / count, green / count, blue / count);
    }

    public void Dispose() => picture.Dispose();
}
