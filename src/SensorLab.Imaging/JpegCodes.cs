using OpenCvSharp;
using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>How often each 8-bit code occurs in a part of a picture.</summary>
/// <param name="Red">256 counts.</param>
/// <param name="Green">256 counts.</param>
/// <param name="Blue">256 counts.</param>
public sealed record JpegCodes(IReadOnlyList<long> Red, IReadOnlyList<long> Green, IReadOnlyList<long> Blue)
{
    private const int Codes = 256;

    /// <summary>Pixels a side that a region keeps when a picture is decoded smaller.</summary>
    private const int EnoughPixels = 64;

    /// <summary>Bytes of the end marker.</summary>
    private const int EndBytes = 2;

    /// <summary>The most pixels that a picture may claim: more than any camera's, less than what exhausts a machine.</summary>
    private const long MostPixels = 1L << 28;

    /// <summary>Counts the codes of a region, as stored: no colour profile is applied, no orientation followed.</summary>
    /// <param name="jpeg">A JPEG file.</param>
    /// <param name="widthPixels">Its columns.</param>
    /// <param name="heightPixels">Its rows.</param>
    /// <param name="region">The region in its pixels, inside of it.</param>
    /// <returns>
    /// The counts. A large region is decoded at an eighth, a quarter or half of its size, where each pixel is the mean code
    /// of a square: its edges are left out, since they hold what lies beside the region.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The region is empty or lies outside.</exception>
    /// <exception cref="MalformedFileException">The picture does not decode, or is not of the size named.</exception>
    /// <exception cref="ImagingLibraryMissingException">The native library is not here.</exception>
    public static JpegCodes Of(byte[] jpeg, int widthPixels, int heightPixels, PixelRectangle region)
    {
        if (region.Width < 1 || region.Height < 1 || !new PixelRectangle(0, 0, widthPixels, heightPixels).Contains(region))
        {
            throw new ArgumentOutOfRangeException(nameof(region), region, $"The region lies outside the picture of {widthPixels} × {heightPixels} pixels.");
        }

        if ((long)widthPixels * heightPixels > MostPixels)
        {
            throw new MalformedFileException($"The picture claims {widthPixels} × {heightPixels} pixels.");
        }

        RequireWhole(jpeg);
        ImagingLibrary.Require();
        try
        {
            return Decoded(jpeg, widthPixels, heightPixels, region);
        }
        catch (OpenCVException e)
        {
            throw new MalformedFileException($"The picture does not decode: {e.Message}");
        }
    }

    // The decoder fills what is missing with grey and says nothing. Behind the end some cameras add small pictures, all whole.
    private static void RequireWhole(ReadOnlySpan<byte> jpeg)
    {
        int end = jpeg.LastIndexOf<byte>([0xFF, 0xD9]);
        if (end < jpeg.Length - (jpeg.Length / 4) - EndBytes)
        {
            throw new MalformedFileException("The picture is cut off.");
        }
    }

    private static JpegCodes Decoded(byte[] jpeg, int widthPixels, int heightPixels, PixelRectangle region)
    {
        (int scale, ImreadModes mode) = Math.Min(region.Width, region.Height) switch
        {
            >= 8 * EnoughPixels => (8, ImreadModes.ReducedColor8),
            >= 4 * EnoughPixels => (4, ImreadModes.ReducedColor4),
            >= 2 * EnoughPixels => (2, ImreadModes.ReducedColor2),
            _ => (1, ImreadModes.Color),
        };
        using Mat picture = Cv2.ImDecode(jpeg, mode | ImreadModes.IgnoreOrientation);
        if (picture.Cols != (widthPixels + scale - 1) / scale || picture.Rows != (heightPixels + scale - 1) / scale)
        {
            throw new MalformedFileException("The picture does not decode.");
        }

        // Whole squares inside the region.
        int left = (region.X + scale - 1) / scale;
        int top = (region.Y + scale - 1) / scale;
        using Mat part = picture[new Rect(left, top, (region.Right / scale) - left, (region.Bottom / scale) - top)];

        // OpenCV's order is blue, green, red.
        return new JpegCodes(Counts(part, 2), Counts(part, 1), Counts(part, 0));
    }

    private static long[] Counts(Mat picture, int channel)
    {
        using var histogram = new Mat();
        Cv2.CalcHist([picture], [channel], null, histogram, 1, [Codes], [new Rangef(0, Codes)]);
        return [.. Enumerable.Range(0, Codes).Select(code => (long)histogram.Get<float>(code))];
    }
}
