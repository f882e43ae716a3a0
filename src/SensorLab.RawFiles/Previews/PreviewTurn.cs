using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;

namespace SensorLab.RawFiles.Previews;

/// <summary>How a preview's stored pixels are turned against the sensor's.</summary>
/// <remarks>
/// TIFF 6.0, tag Orientation, in the raw file and in the JPEG's own Exif (CIPA DC-008, APP1). Each says how its pixels must
/// be turned to stand upright. A JPEG without the tag lies as the raw file does (DNG's rule), unless its shape says that
/// it was turned already. Mirrored orientations count as the turn in them.
/// </remarks>
internal static class PreviewTurn
{
    private const ushort Orientation = 274;
    private const int App1 = 0xE1;
    private const int StartOfScan = 0xDA;
    private const int ExifHeaderBytes = 6;

    /// <summary>Quarter turns clockwise from the sensor's pixels to the preview's, 0 to 3.</summary>
    /// <param name="rawPath">The raw file.</param>
    /// <param name="jpeg">The preview.</param>
    /// <param name="size">The preview's size.</param>
    /// <param name="isSensorWide">Whether the sensor is wider than high.</param>
    public static int Of(string rawPath, byte[] jpeg, JpegSize size, bool isSensorWide)
    {
        int raw = UprightTurns(RawOrientation(rawPath));
        bool isTurnedShape = size.Width != size.Height && size.Width > size.Height != isSensorWide;
        int preview = JpegOrientation(jpeg) is { } tag ? UprightTurns(tag) : isTurnedShape ? 0 : raw;
        int turns = ((raw - preview) % 4 + 4) % 4;

        // The shape is seen, the tags are said: where they disagree by a quarter turn, the shape is right.
        return int.IsOddInteger(turns) == isTurnedShape ? turns : isTurnedShape ? (int.IsOddInteger(raw) ? raw : 1) : 0;
    }

    /// <summary>Quarter turns clockwise that bring pixels of an orientation upright.</summary>
    private static int UprightTurns(int? orientation) => orientation switch
    {
        3 or 4 => 2,
        5 or 6 => 1,
        7 or 8 => 3,
        _ => 0,
    };

    private static int? RawOrientation(string path)
    {
        try
        {
            using FileStream file = File.OpenRead(path);
            return file.Length >= 8 && RawFileScreen.IsTiff(RawFileScreen.Read(file, 0, 8)) ? First(file) : null;
        }
        catch (MalformedFileException)
        {
            return null;
        }
    }

    private static int? JpegOrientation(ReadOnlySpan<byte> jpeg)
    {
        int position = 2;
        while (position + 4 <= jpeg.Length && jpeg[position] == 0xFF && jpeg[position + 1] != StartOfScan)
        {
            int length = (jpeg[position + 2] << 8) | jpeg[position + 3];
            ReadOnlySpan<byte> rest = jpeg[(position + 4)..];
            if (jpeg[position + 1] == App1 && length >= 2 + ExifHeaderBytes + 8 && rest.Length >= length - 2 && rest.StartsWith("Exif\0\0"u8))
            {
                return OfExif(rest[ExifHeaderBytes..(length - 2)].ToArray());
            }

            position += 2 + Math.Max(2, length);
        }

        return null;
    }

    private static int? OfExif(byte[] exif)
    {
        try
        {
            return RawFileScreen.IsTiff(exif) ? First(new MemoryStream(exif)) : null;
        }
        catch (MalformedFileException)
        {
            return null;
        }
    }

    // The first directory's alone: those of thumbnails may lie otherwise.
    private static int? First(Stream file) =>
        TiffDirectoryWalk.Read(file, Orientation).FirstOrDefault() is { } directory && directory.TryGetValue(Orientation, out uint[]? values) && values.Length == 1
            ? (int)values[0]
            : null;
}
