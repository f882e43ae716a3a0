using SensorLab.Frames;

namespace SensorLab.RawFiles.Dng;

/// <summary>Reads the strips or tiles of one column of segments, from top to bottom.</summary>
internal interface ISegmentReader : IDisposable
{
    /// <summary>The fewest bytes in which so many photosites can be stored.</summary>
    /// <param name="columns">Columns of a segment.</param>
    /// <param name="rows">Its rows.</param>
    long LeastBytes(int columns, int rows);

    /// <summary>Whether <see cref="Skip"/> works: rows lie where their number says.</summary>
    bool CanSkip => false;

    /// <summary>Passes over rows of the segment that was started, without reading them.</summary>
    /// <param name="rows">Rows, no more than the segment has left.</param>
    /// <exception cref="NotSupportedException">The segment is compressed.</exception>
    void Skip(int rows) => throw new NotSupportedException("Rows of compressed segments follow from those before them.");

    /// <summary>Starts a segment.</summary>
    /// <param name="offset">Its first byte.</param>
    /// <param name="bytes">Its bytes, known to lie in the file.</param>
    /// <param name="rows">Rows of the image in it.</param>
    /// <exception cref="MalformedFileException">The segment's own header is damaged, or the segment too short.</exception>
    /// <exception cref="UnsupportedFileException">The segment is coded in a way that is refused here.</exception>
    void Start(long offset, long bytes, int rows);

    /// <summary>Reads the segment's next rows into a part of an image.</summary>
    /// <param name="target">The image from the segment's first photosite of these rows.</param>
    /// <param name="stride">Columns of the image.</param>
    /// <param name="columns">Columns of the segment that the image has.</param>
    /// <param name="rows">Rows to read, no more than the segment has left.</param>
    /// <exception cref="MalformedFileException">The data are damaged.</exception>
    void ReadRows(Span<ushort> target, int stride, int columns, int rows);
}
