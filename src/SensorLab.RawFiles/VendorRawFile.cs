using SensorLab.Frames;

namespace SensorLab.RawFiles;

/// <summary>The one place where makers' formats are handed on.</summary>
internal static class VendorRawFile
{
    /// <summary>Opens a file that is no DNG.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="UnsupportedFileException">Always: makers' formats are not decoded.</exception>
    public static IMosaicReader Open(string path) => throw new UnsupportedFileException(
        $"Raw files of the kind {Path.GetExtension(path).ToLowerInvariant()} are not decoded here.",
        "Convert the file to an uncompressed or lossless DNG.",
        isUnsuitable: false);
}
