using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>Mean codes of many parts of a JPEG picture, in one decoding.</summary>
public static class JpegMeans
{
    /// <summary>Pixels a side that the smallest part keeps when a picture is decoded smaller.</summary>
    private const int EnoughPixels = 3;

    /// <summary>Takes the means, as stored: no colour profile is applied, no orientation followed.</summary>
    /// <param name="jpeg">A JPEG file.</param>
    /// <param name="widthPixels">Its columns.</param>
    /// <param name="heightPixels">Its rows.</param>
    /// <param name="parts">Parts in its pixels, inside of it and not empty; null for one that it does not show.</param>
    /// <returns>The means of the pixels that lie whole in each part, in the order of the parts; null for those that it does not show.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A part is empty or lies outside.</exception>
    /// <exception cref="MalformedFileException">The picture does not decode, or is not of the size named.</exception>
    /// <exception cref="ImagingLibraryMissingException">No native library is here that decodes pictures.</exception>
    public static IReadOnlyList<MeanCodes?> Of(byte[] jpeg, int widthPixels, int heightPixels, IReadOnlyList<PixelRectangle?> parts) =>
        Of(ImagingLibrary.Require(), jpeg, widthPixels, heightPixels, parts);

    /// <summary>The same by a library of the caller's.</summary>
    internal static IReadOnlyList<MeanCodes?> Of(IPictureLibrary library, byte[] jpeg, int widthPixels, int heightPixels, IReadOnlyList<PixelRectangle?> parts)
    {
        var whole = new PixelRectangle(0, 0, widthPixels, heightPixels);
        if (parts.Any(part => part is { } p && (p.Width < 1 || p.Height < 1 || !whole.Contains(p))))
        {
            throw new ArgumentOutOfRangeException(nameof(parts), "A part is empty or lies outside of the picture.");
        }

        return WholeJpeg.Read(jpeg, widthPixels, heightPixels, () => Decoded(library, jpeg, widthPixels, heightPixels, parts));
    }

    private static MeanCodes?[] Decoded(IPictureLibrary library, byte[] jpeg, int widthPixels, int heightPixels, IReadOnlyList<PixelRectangle?> parts)
    {
        int smallest = parts.Min(part => part is { } p ? Math.Min(p.Width, p.Height) : int.MaxValue);

        // A part that begins between two squares loses one at either end.
        int reduction = new[] { 8, 4, 2 }.FirstOrDefault(r => smallest >= (EnoughPixels + 1) * r, 1);
        using IDecodedPicture picture = library.Decode(jpeg, widthPixels, heightPixels, reduction)
            ?? throw new MalformedFileException("The picture does not decode.");
        return [.. parts.Select(part => part is { } p ? picture.Mean(Inside(p, reduction)) : (MeanCodes?)null)];
    }

    private static PixelRectangle Inside(PixelRectangle part, int reduction)
    {
        int left = (part.X + reduction - 1) / reduction;
        int top = (part.Y + reduction - 1) / reduction;
        return new PixelRectangle(left, top, (part.Right / reduction) - left, (part.Bottom / reduction) - top);
    }
}
