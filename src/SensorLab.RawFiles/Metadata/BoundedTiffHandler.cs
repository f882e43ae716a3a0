using MetadataExtractor.Formats.Exif;
using MetadataExtractor.IO;
using Directory = MetadataExtractor.Directory;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Takes in TIFF's directories as the library does, but a bounded number of them, and without embedded documents of other kinds.</summary>
/// <param name="directories">Where the directories go.</param>
/// <remarks>The library walks nested and chained directories alike by recursion.</remarks>
internal sealed class BoundedTiffHandler(List<Directory> directories) : ExifTiffHandler(directories)
{
    /// <summary>Real files have a few dozen at most, makers' notes included.</summary>
    private const int MostDirectories = 256;

    /// <summary>XMP, IPTC, the resources of picture editors, colour profiles: nothing of the frame that the tags don't say.</summary>
    private static readonly HashSet<int> EmbeddedDocuments = [700, 33723, 34377, 34675];

    private int _entered;

    /// <inheritdoc/>
    public override bool TryEnterSubIfd(int tagType) =>
        _entered < MostDirectories && base.TryEnterSubIfd(tagType) && ++_entered > 0;

    /// <inheritdoc/>
    public override bool HasFollowerIfd() =>
        _entered < MostDirectories && base.HasFollowerIfd() && ++_entered > 0;

    /// <inheritdoc/>
    public override bool CustomProcessTag(int tagOffset, ICollection<int> processedIfdOffsets, IndexedReader reader, int tagId, int byteCount) =>
        EmbeddedDocuments.Contains(tagId) || base.CustomProcessTag(tagOffset, processedIfdOffsets, reader, tagId, byteCount);
}
