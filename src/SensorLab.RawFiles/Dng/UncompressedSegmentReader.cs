using System.Buffers;
using System.Runtime.InteropServices;
using SensorLab.Frames;

namespace SensorLab.RawFiles.Dng;

/// <summary>Reads uncompressed segments: whole 16-bit rows straight into the image, others through a pooled buffer.</summary>
internal sealed class UncompressedSegmentReader : ISegmentReader
{
    private const int MostBufferBytes = 1 << 20;

    private readonly RandomAccessFile _file;
    private readonly SampleCoding _coding;
    private readonly int _segmentWidth;
    private readonly int _rowBytes;
    private long _next;

    /// <summary>Creates a reader.</summary>
    /// <param name="file">The file.</param>
    /// <param name="coding">How samples are stored.</param>
    /// <param name="segmentWidth">Columns of a segment.</param>
    public UncompressedSegmentReader(RandomAccessFile file, SampleCoding coding, int segmentWidth)
    {
        _file = file;
        _coding = coding;
        _segmentWidth = segmentWidth;
        _rowBytes = coding.RowBytes(segmentWidth);
    }

    /// <inheritdoc/>
    public bool CanSkip => true;

    /// <inheritdoc/>
    public void Skip(int rows) => _next += (long)_rowBytes * rows;

    /// <inheritdoc/>
    public long LeastBytes(int columns, int rows) => (long)_coding.RowBytes(columns) * rows;

    /// <inheritdoc/>
    public void Start(long offset, long bytes, int rows)
    {
        if ((long)_rowBytes * rows > bytes)
        {
            throw new MalformedFileException($"A strip or tile of the raw image has {bytes} bytes where its photosites need {(long)_rowBytes * rows}.");
        }

        _next = offset;
    }

    /// <inheritdoc/>
    public void ReadRows(Span<ushort> target, int stride, int columns, int rows)
    {
        if (_coding.IsWhole && columns == _segmentWidth && columns == stride)
        {
            Span<ushort> whole = target[..(columns * rows)];
            _file.Read(_next, MemoryMarshal.AsBytes(whole));
            _coding.OrderBytes(whole);
            _next += (long)_rowBytes * rows;
            return;
        }

        int rowsAtOnce = Math.Clamp(MostBufferBytes / _rowBytes, 1, rows);
        byte[] buffer = ArrayPool<byte>.Shared.Rent(rowsAtOnce * _rowBytes);
        try
        {
            for (int row = 0; row < rows; row += rowsAtOnce)
            {
                int count = Math.Min(rowsAtOnce, rows - row);
                Decode(buffer.AsSpan(0, count * _rowBytes), target[(row * stride)..], stride, columns);
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // The file is the mosaic reader's.
    }

    private void Decode(Span<byte> buffer, Span<ushort> target, int stride, int columns)
    {
        _file.Read(_next, buffer);
        _next += buffer.Length;
        for (int row = 0; row * _rowBytes < buffer.Length; row++)
        {
            _coding.Decode(buffer.Slice(row * _rowBytes, _rowBytes), target.Slice(row * stride, columns));
        }
    }
}
