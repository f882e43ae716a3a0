using SensorLab.Frames;

namespace SensorLab.Measurement.Previews;

/// <summary>Where the measured region lies in a preview of another size and turn.</summary>
public static class PreviewRegion
{
    /// <summary>Photosites a side by which a preview's edges may differ from the active area's, as a share: demosaicing eats a few.</summary>
    private const double SameShape = 0.02;

    private const int SmallestSide = 4;

    /// <summary>Maps a region of the sensor to a preview.</summary>
    /// <param name="region">The region in photosites from the active area's top left.</param>
    /// <param name="sensorWidth">Columns of the active area.</param>
    /// <param name="sensorHeight">Rows of the active area.</param>
    /// <param name="previewWidth">Columns of the preview as stored.</param>
    /// <param name="previewHeight">Rows of the preview as stored.</param>
    /// <param name="quarterTurns">By how many quarter turns clockwise the preview's stored pixels are turned against the sensor's.</param>
    /// <returns>
    /// Pixels that lie inside the region; where the preview has another shape, those inside it whether the preview is cut or
    /// has bars; null where no 4 × 4 pixels remain.
    /// </returns>
    public static PixelRectangle? Of(PixelRectangle region, int sensorWidth, int sensorHeight, int previewWidth, int previewHeight, int quarterTurns)
    {
        (double X, double Y, double Right, double Bottom) turned = (region.X, region.Y, region.Right, region.Bottom);
        (double width, double height) = (sensorWidth, sensorHeight);
        for (int i = 0; i < ((quarterTurns % 4) + 4) % 4; i++)
        {
            // Clockwise: what was at the left is at the top, what was at the bottom is at the left.
            turned = (height - turned.Bottom, turned.X, height - turned.Y, turned.Right);
            (width, height) = (height, width);
        }

        double across = previewWidth / width;
        double down = previewHeight / height;
        if (Math.Abs((across / down) - 1) <= SameShape)
        {
            return Whole(turned.X * across, turned.Y * down, turned.Right * across, turned.Bottom * down);
        }

        (double X, double Y, double Right, double Bottom) cut = Scaled(Math.Max(across, down));
        (double X, double Y, double Right, double Bottom) barred = Scaled(Math.Min(across, down));
        return Whole(
            Math.Max(0, Math.Max(cut.X, barred.X)),
            Math.Max(0, Math.Max(cut.Y, barred.Y)),
            Math.Min(previewWidth, Math.Min(cut.Right, barred.Right)),
            Math.Min(previewHeight, Math.Min(cut.Bottom, barred.Bottom)));

        (double X, double Y, double Right, double Bottom) Scaled(double scale)
        {
            double left = 0.5 * (previewWidth - (width * scale));
            double top = 0.5 * (previewHeight - (height * scale));
            return (left + (turned.X * scale), top + (turned.Y * scale), left + (turned.Right * scale), top + (turned.Bottom * scale));
        }
    }

    private static PixelRectangle? Whole(double left, double top, double right, double bottom)
    {
        int x = (int)Math.Ceiling(left - 1e-9);
        int y = (int)Math.Ceiling(top - 1e-9);
        int width = (int)Math.Floor(right + 1e-9) - x;
        int height = (int)Math.Floor(bottom + 1e-9) - y;
        return width < SmallestSide || height < SmallestSide ? null : new PixelRectangle(x, y, width, height);
    }
}
