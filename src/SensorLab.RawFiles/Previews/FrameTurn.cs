using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Previews;

/// <summary>How a frame's pixels must be turned to stand upright, by the tag Orientation of the raw file (TIFF 6.0).</summary>
public static class FrameTurn
{
    /// <summary>Quarter turns clockwise that bring a frame upright.</summary>
    /// <param name="path">The raw file.</param>
    /// <returns>0 to 3; 0 where the file does not say. Mirrored orientations count as the turn in them.</returns>
    /// <exception cref="IOException">The file cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read.</exception>
    public static int UprightTurns(string path) => OfTag(RawOrientation(path));

    /// <summary>Quarter turns clockwise that bring pixels of an orientation upright.</summary>
    internal static int OfTag(int? orientation) => orientation switch
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
            using RandomAccessFile file = RandomAccessFile.Open(path);
            return TiffReader.IsTiff(file) && TiffReader.ReadSound(file).First.SoundIntegers(TiffTag.Orientation, most: 1) is [uint tag] ? (int)tag : null;
        }
        catch (MalformedFileException)
        {
            return null;
        }
    }
}
