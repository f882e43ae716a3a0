namespace SensorLab.RawFiles.Previews;

/// <summary>How a preview's stored pixels are turned against the sensor's.</summary>
/// <remarks>
/// TIFF 6.0, tag Orientation, in the raw file and in the JPEG's own Exif (CIPA DC-008, APP1). Each says how its pixels must
/// be turned to stand upright. A JPEG without the tag lies as the raw file does (DNG's rule), unless its shape says that
/// it was turned already. Mirrored orientations count as the turn in them.
/// </remarks>
internal static class PreviewTurn
{
    /// <summary>Quarter turns clockwise from the sensor's pixels to the preview's, 0 to 3.</summary>
    /// <param name="rawPath">The raw file.</param>
    /// <param name="jpeg">The preview.</param>
    /// <param name="size">The preview's size.</param>
    /// <param name="isSensorWide">Whether the sensor is wider than high.</param>
    public static int Of(string rawPath, byte[] jpeg, JpegSize size, bool isSensorWide)
    {
        int raw = FrameTurn.UprightTurns(rawPath);
        bool isTurnedShape = size.Width != size.Height && size.Width > size.Height != isSensorWide;
        int preview = ExifOrientation.Of(jpeg) is { } tag ? FrameTurn.OfTag(tag) : isTurnedShape ? 0 : raw;
        int turns = ((raw - preview) % 4 + 4) % 4;

        // The shape is seen, the tags are said: where they disagree by a quarter turn, the shape is right.
        return int.IsOddInteger(turns) == isTurnedShape ? turns : isTurnedShape ? (int.IsOddInteger(raw) ? raw : 1) : 0;
    }
}
