using SensorLab.Frames;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>What libraw_image_sizes_t says, checked before it is believed.</summary>
/// <param name="RawWidth">Stored columns.</param>
/// <param name="RawHeight">Stored rows.</param>
/// <param name="Visible">The visible area inside of what is stored.</param>
/// <param name="PitchBytes">Bytes from a row to the next; before decoding 0.</param>
internal sealed record LibRawSizes(int RawWidth, int RawHeight, PixelRectangle Visible, int PitchBytes)
{
    /// <summary>No sensor has fewer rows or columns.</summary>
    private const int SmallestSide = 32;

    /// <summary>Half a gigapixel: beyond every body, and a gigabyte of codes.</summary>
    private const long MostPhotosites = 1L << 29;

    /// <summary>
    /// No coder of real photosites gets below this: noise of a tenth of a code step still takes half a bit,
    /// and Huffman coders take a whole one.
    /// </summary>
    private const double FewestBitsPerPhotosite = 0.25;

    /// <summary>Reads the sizes.</summary>
    /// <param name="handle">A decoder with an open file.</param>
    public static unsafe LibRawSizes Of(LibRawHandle handle)
    {
        ushort* sizes = (ushort*)(handle.Data + LibRawLayout.SizesOffset);
        return new LibRawSizes(
            handle.Library.RawWidth(handle.Data),
            handle.Library.RawHeight(handle.Data),
            new PixelRectangle(sizes[5], sizes[4], sizes[3], sizes[2]),
            LibRawLayout.PitchBytes(handle.Data));
    }

    /// <summary>Whether libraw_raw2image's picture has the visible area's size.</summary>
    /// <param name="handle">A decoder after libraw_raw2image.</param>
    /// <param name="sizes">Its sizes.</param>
    public static unsafe bool ImageIsUnshrunk(LibRawHandle handle, LibRawSizes sizes)
    {
        ushort* fields = (ushort*)(handle.Data + LibRawLayout.SizesOffset);
        return fields[7] == sizes.Visible.Width && fields[6] == sizes.Visible.Height;
    }

    /// <summary>Checks the sizes against each other and the file's length.</summary>
    /// <param name="fileBytes">The file's length in bytes.</param>
    /// <param name="decoder">What decodes it.</param>
    /// <exception cref="MalformedFileException">The file cannot hold that many photosites, or the sizes contradict each other.</exception>
    /// <exception cref="UnsupportedFileException">The visible area is turned against the stored rows.</exception>
    public void Check(long fileBytes, LibRawDecoder decoder)
    {
        long photosites = (long)RawWidth * RawHeight;
        if (RawWidth < SmallestSide || RawHeight < SmallestSide || photosites > MostPhotosites)
        {
            throw new MalformedFileException($"The file names a mosaic of {RawWidth} × {RawHeight} photosites, which no sensor has.");
        }

        double fewestBits = decoder.TakesWholeBytes ? 8 : FewestBitsPerPhotosite;
        if (8.0 * fileBytes < fewestBits * photosites)
        {
            throw new MalformedFileException($"The file's {fileBytes} bytes cannot hold {RawWidth} × {RawHeight} photosites.");
        }

        if (Visible.Width > RawWidth || Visible.Height > RawHeight)
        {
            throw LibRawRefusal.UnsuitableMosaic("Its photosites stand on a grid that is turned by 45 degrees.");
        }

        if (Visible.Width < SmallestSide || Visible.Height < SmallestSide || Visible.Right > RawWidth || Visible.Bottom > RawHeight)
        {
            throw new MalformedFileException("The file's visible area reaches beyond its mosaic.");
        }
    }
}
