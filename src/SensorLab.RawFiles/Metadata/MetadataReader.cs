using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Jpeg;
using MetadataExtractor.Formats.QuickTime;
using MetadataExtractor.Formats.Tiff;
using MetadataExtractor.IO;
using SensorLab.Files;
using SensorLab.Frames;
using Directory = MetadataExtractor.Directory;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Reads what a raw file says of itself: the standard's tags first, the maker's note for what they leave out.</summary>
/// <remarks>
/// Exif 2.32 (CIPA DC-008), TIFF 6.0, DNG 1.7. Odd or hostile metadata end in fields that are null, never in
/// an exception; time and memory are bounded whatever the file claims.
/// </remarks>
internal static class MetadataReader
{
    /// <summary>
    /// The library walks what is nested by recursion, some 2 KB a level: directories of TIFF, whose number is
    /// bounded, and of boxes, whose length is (15,000 directories fit in the longest value that is read).
    /// Address space, taken up only as it is used.
    /// </summary>
    private const int StackBytes = 256 << 20;

    private const int HeaderBytes = 96;
    private const int EmbeddedJpegPointer = 84;

    /// <summary>Reads a file's metadata.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The metadata; null where the file does not say.</returns>
    /// <exception cref="IOException">The file cannot be opened.</exception>
    public static FrameMetadata Read(string path)
    {
        using FileStream whole = PlainFile.OpenRead(path);
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
            return FrameMetadataTable.Interpret(new MetadataTags(Directories(file)));
        }
        catch (Exception)
        {
            return new FrameMetadata();
        }
    }

    /// <summary>
    /// Only the containers that raw files come in, and in a JPEG only its Exif segment: other formats and
    /// packets bring compression and nesting without bounds, and nothing that a raw file needs.
    /// </summary>
    private static IEnumerable<Directory> Directories(Stream file)
    {
        byte[] header = new byte[HeaderBytes];
        int read = file.ReadAtLeast(header, HeaderBytes, throwOnEndOfStream: false);
        file.Position = 0;
        ReadOnlySpan<byte> start = header.AsSpan(0, read);
        if (start.StartsWith("FUJIFILMCCD-RAW "u8) && read == HeaderBytes)
        {
            file.Position = BinaryPrimitives.ReadUInt32BigEndian(start[EmbeddedJpegPointer..]);
            return JpegMetadataReader.ReadMetadata(file, [new ExifReader()]);
        }

        if (start.Length > 12 && start[4..].StartsWith("ftypcrx "u8))
        {
            return QuickTimeMetadataReader.ReadMetadata(file);
        }

        List<Directory> directories = [];
        if (start.StartsWith("II"u8) || start.StartsWith("MM"u8))
        {
            TiffReader.ProcessTiff(new IndexedSeekingReader(file), new BoundedTiffHandler(directories));
        }

        return directories;
    }
}
