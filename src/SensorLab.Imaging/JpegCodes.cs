using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>How often each 8-bit code occurs in a part of a picture.</summary>
/// <param name="Red">256 counts.</param>
/// <param name="Green">256 counts.</param>
/// <param name="Blue">256 counts.</param>
public sealed record JpegCodes(IReadOnlyList<long> Red, IReadOnlyList<long> Green, IReadOnlyList<long> Blue)
{
    /// <summary>Codes of 8 bits.</summary>
    internal const int Codes = 256;

    /// <summary>Pixels a side that a region keeps when a picture is decoded smaller.</summary>
    private const int EnoughPixels = 64;

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
    /// <exception cref="ImagingLibraryMissingException">No native library is here that decodes pictures.</exception>
    public static JpegCodes Of(byte[] jpeg, int widthPixels, int heightPixels, PixelRectangle region) =>
        Of(ImagingLibrary.Require(), jpeg, widthPixels, heightPixels, region);

    /// <summary>The same by a library of the caller's.</summary>
    internal static JpegCodes Of(IPictureLibrary library, byte[] jpeg, int widthPixels, int heightPixels, PixelRectangle region)
    {
        if (region.Width < 1 || region.Height < 1 || !new PixelRectangle(0, 0, widthPixels, heightPixels).Contains(region))
        {
            throw new ArgumentOutOfRangeException(nameof(region), region, $"The region lies outside the picture of {widthPixels} × {heightPixels} pixels.");
        }

        return WholeJpeg.Read(jpeg, widthPixels, heightPixels, () => Decoded(library, jpeg, widthPixels, heightPixels, region));
    }

    private static JpegCodes Decoded(IPictureLibrary library, byte[] jpeg, int widthPixels, int heightPixels, PixelRectangle region)
    {
        int reduction = Math.Min(region.Width, region.Height) switch
        {
            >= 8 * EnoughPixels => 8,
            >= 4 * EnoughPixels => 4,
            >= 2 * EnoughPixels => 2,
            _ => 1,
        };
        using IDecodedPicture picture = library.Decode(jpeg, widthPixels, heightPixels, reduction)
            ?? throw new MalformedFileException("The picture does not decode.");

        // Whole squares inside the region.
        int left = (region.X + reduction - 1) / reduction;
        int top = (region.Y + reduction - 1) / reduction;
        return picture.Codes(new PixelRectangle(left, top, (region.Right / reduction) - left, (region.Bottom / reduction) - top));
    }
}
