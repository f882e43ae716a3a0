using SensorLab.Frames;

namespace SensorLab.RawFiles.Tiff;

/// <summary>Where a file's pictures lie: a copy that was cut short shows by them, even where what was asked for is still there.</summary>
/// <remarks>TIFF 6.0, sections 3 and 15, and section 22 for thumbnails.</remarks>
internal static class PicturePlaces
{
    private const int MostPieces = 1 << 20;

    /// <summary>Where strips, tiles and thumbnails begin, and how long they are.</summary>
    private static readonly (ushort Offsets, ushort Lengths)[] Pieces =
    [
        (TiffTag.StripOffsets, TiffTag.StripByteCounts),
        (TiffTag.TileOffsets, TiffTag.TileByteCounts),
        (TiffTag.JpegInterchangeFormat, TiffTag.JpegInterchangeFormatLength),
    ];

    /// <summary>Requires that a file holds the pictures that its directories describe; what a directory says in no sound way is passed over.</summary>
    /// <param name="file">The file.</param>
    /// <param name="directories">The directories.</param>
    /// <exception cref="MalformedFileException">The file ends before a picture does.</exception>
    public static void RequireInside(RandomAccessFile file, IEnumerable<TiffDirectory> directories)
    {
        foreach (TiffDirectory directory in directories)
        {
            foreach ((ushort offsets, ushort lengths) in Pieces)
            {
                uint[] starts = directory.SoundIntegers(offsets, MostPieces);
                uint[] sizes = directory.SoundIntegers(lengths, MostPieces);
                if (starts.Length == sizes.Length && starts.Zip(sizes, (start, size) => (long)start + size).Any(end => end > file.Length))
                {
                    throw new MalformedFileException("The file ends before its picture data do.");
                }
            }
        }
    }
}
