using System.Buffers.Binary;
using System.Globalization;
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

    /// <summary>Bytes of the end marker.</summary>
    private const int EndBytes = 2;

    /// <summary>The most pixels that a picture may claim: more than any camera's, less than what exhausts a machine.</summary>
    private const long MostPixels = 1L << 28;

    /// <summary>The same for a progressive picture, whose coefficients all lie in memory while it is decoded: six bytes a pixel.</summary>
    private const long MostProgressivePixels = 1L << 26;

    // One progressive picture at a time: side by side they would take a gigabyte.
    private static readonly Lock Progressive = new();

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

        bool isProgressive = IsProgressive(jpeg);
        if ((long)widthPixels * heightPixels > (isProgressive ? MostProgressivePixels : MostPixels))
        {
            throw new MalformedFileException(string.Create(CultureInfo.InvariantCulture, $"The {(isProgressive ? "progressive " : string.Empty)}picture claims {widthPixels} × {heightPixels} pixels."));
        }

        RequireWhole(jpeg);
        if (!isProgressive)
        {
            return Decoded(library, jpeg, widthPixels, heightPixels, region);
        }

        lock (Progressive)
        {
            return Decoded(library, jpeg, widthPixels, heightPixels, region);
        }
    }

    // ITU-T T.81, annex B: segments follow each other up to the frame's, 0xC2 of a progressive one; 0xC4, 0xC8 and 0xCC begin no frame.
    private static bool IsProgressive(ReadOnlySpan<byte> jpeg)
    {
        for (int at = 2; at + 4 <= jpeg.Length && jpeg[at] == 0xFF;)
        {
            byte marker = jpeg[at + 1];
            if (marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC))
            {
                return marker == 0xC2;
            }

            at += marker == 0xFF ? 1 : 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg[(at + 2)..]);
        }

        return false;
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
