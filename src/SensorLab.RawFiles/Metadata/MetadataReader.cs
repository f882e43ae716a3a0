using System.Diagnostics.CodeAnalysis;
using MetadataExtractor;
using SensorLab.Frames;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Reads what a raw file says of itself: the standard's tags first, the maker's note for what they leave out.</summary>
/// <remarks>
/// Exif 2.32 (CIPA DC-008), TIFF 6.0, DNG 1.7. Odd or hostile metadata end in fields that are null, never in
/// an exception; time and memory are bounded whatever the file claims.
/// </remarks>
internal static class MetadataReader
{
    /// <summary>
    /// Nested directories are walked by recursion. The bounded file ends any nesting long before this much
    /// stack (address space, taken up only as it is used) is full.
    /// </summary>
    private const int StackBytes = 256 << 20;

    /// <summary>Reads a file's metadata.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The metadata; null where the file does not say.</returns>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static FrameMetadata Read(string path)
    {
        using FileStream whole = File.OpenRead(path);
        using BoundedMetadataStream file = new(whole);
        FrameMetadata metadata = new();
        Thread thread = new(() => metadata = Interpret(file), StackBytes) { IsBackground = true };
        thread.Start();
        thread.Join();
        return metadata;
    }

    [SuppressMessage("Design", "CA1031", Justification = "Hostile bytes come out of the parser as exceptions of any kind; all mean that the file does not say.")]
    private static FrameMetadata Interpret(Stream file)
    {
        try
        {
            return FrameMetadataTable.Interpret(new MetadataTags(ImageMetadataReader.ReadMetadata(file)));
        }
        catch (Exception)
        {
            return new FrameMetadata();
        }
    }
}
