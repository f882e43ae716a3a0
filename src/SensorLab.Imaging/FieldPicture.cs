using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>A small grey picture of a frame, with the region measured and the spot meter's window drawn and labelled.</summary>
public static class FieldPicture
{
    /// <summary>Longest side of the binned picture in pixels.</summary>
    private const int LongestSide = 960;

    /// <summary>Smaller pictures are enlarged by whole numbers to this side at least, so that labels can be read.</summary>
    private const int SmallestSide = 640;

    /// <summary>Share of cells that may be white: hot pixels do not darken the rest.</summary>
    private const double WhiteShare = 0.001;

    /// <summary>Where the white of the picture lies above that: an even field is a light grey, not white.</summary>
    private const double Headroom = 1.25;

    /// <summary>The exponent that screens undo, near sRGB's.</summary>
    private const double Gamma = 2.2;

    /// <summary>Requires a native library.</summary>
    /// <exception cref="ImagingLibraryMissingException">None can be loaded.</exception>
    public static void RequireLibrary() => ImagingLibrary.Require();

    /// <summary>Draws a frame.</summary>
    /// <param name="reader">The frame, at its first row.</param>
    /// <param name="region">The region measured, in photosites from the active area's top left.</param>
    /// <param name="spot">The spot meter's window, counted alike.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>A PNG file's bytes, 8 bits a channel; the same for the same frame and rectangles.</returns>
    /// <exception cref="ImagingLibraryMissingException">No native library is here that draws pictures.</exception>
    /// <exception cref="MalformedFileException">The frame's data are damaged.</exception>
    public static byte[] Png(IMosaicReader reader, PixelRectangle region, PixelRectangle spot, CancellationToken cancellation = default) =>
        Png(ImagingLibrary.Require(), reader, region, spot, cancellation);

    /// <summary>The same by a library of the caller's.</summary>
    internal static byte[] Png(IPictureLibrary library, IMosaicReader reader, PixelRectangle region, PixelRectangle spot, CancellationToken cancellation)
    {
        BinnedFrame binned = BinnedFrame.Of(reader, LongestSide, cancellation);
        byte[] greys = ToneMapped(binned);
        int factor = Math.Max(1, (int)Math.Ceiling((double)SmallestSide / Math.Max(binned.Width, binned.Height)));
        using IFieldCanvas picture = library.Canvas(binned.Width, binned.Height, greys, factor);
        double scale = (double)factor / binned.Photosites;
        new FieldMarks(picture).Draw(ToPicture(region, scale), ToPicture(spot, scale));
        return picture.Png();
    }

    private static byte[] ToneMapped(BinnedFrame binned)
    {
        double[] rising = [.. binned.SignalsDn.Order()];
        double white = Headroom * Math.Max(1, rising[(int)((rising.Length - 1) * (1 - WhiteShare))]);
        return [.. binned.SignalsDn.Select(s => (byte)Math.Round(255 * Math.Pow(Math.Clamp(s / white, 0, 1), 1 / Gamma)))];
    }

    private static PixelRectangle ToPicture(PixelRectangle r, double scale)
    {
        int left = (int)Math.Round(r.X * scale);
        int top = (int)Math.Round(r.Y * scale);
        return new PixelRectangle(left, top, Math.Max(1, (int)Math.Round(r.Right * scale) - left), Math.Max(1, (int)Math.Round(r.Bottom * scale) - top));
    }
}
