using SensorLab.Frames;
using SensorLab.RawFiles;

namespace SensorLab;

/// <summary>How raw files are recognised, opened and told apart.</summary>
/// <param name="IsRawFile">Whether a path is a raw file's, by its name.</param>
/// <param name="Open">
/// Opens a file's frame; throws <see cref="MalformedFileException"/> or <see cref="UnsupportedFileException"/>.
/// </param>
/// <param name="ContentKeyOf">A key made of the file's pixel bytes.</param>
internal sealed record RawFileAccess(
    Func<string, bool> IsRawFile,
    Func<string, IMosaicReader> Open,
    Func<string, ulong> ContentKeyOf)
{
    /// <summary>The library's own way.</summary>
    public static RawFileAccess Library { get; } = new(RawFileOpener.IsRawFile, RawFileOpener.Open, RawFileOpener.ContentKeyOf);
}
