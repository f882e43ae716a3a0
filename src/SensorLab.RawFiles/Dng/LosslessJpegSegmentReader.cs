using SensorLab.Frames;
using SensorLab.RawFiles.LosslessJpeg;

namespace SensorLab.RawFiles.Dng;

/// <summary>
/// Reads segments of lossless JPEG. The JPEG's lines may be longer or shorter than the segment's rows (two components
/// of half the width, or two rows side by side): its samples are one stream that is cut into rows anew.
/// </summary>
/// <remarks>DNG 1.7, chapter 3, "Compression"; lines and rows must be multiples of each other.</remarks>
internal sealed class LosslessJpegSegmentReader : ISegmentReader
{
    private readonly LosslessJpegDecoder _decoder;
    private readonly int _segmentWidth;
    private readonly int _mostBits;
    private ushort[] _left = [];
    private int _leftStart;
    private int _lineLength;

    /// <summary>Creates a reader.</summary>
    /// <param name="file">The file.</param>
    /// <param name="segmentWidth">Columns of a segment.</param>
    /// <param name="mostBits">The highest precision that a segment may have.</param>
    public LosslessJpegSegmentReader(RandomAccessFile file, int segmentWidth, int mostBits)
    {
        _decoder = new LosslessJpegDecoder(file);
        _segmentWidth = segmentWidth;
        _mostBits = mostBits;
    }

    /// <inheritdoc/>
    public long LeastBytes(int columns, int rows) => ((long)columns * rows / 8) + 1;

    /// <inheritdoc/>
    public void Start(long offset, long bytes, int rows)
    {
        LosslessJpegHeader header = _decoder.Start(offset, bytes);
        int length = header.LineLength;
        bool isMultiple = length % _segmentWidth == 0 || _segmentWidth % length == 0;
        if (!isMultiple || (long)length * header.Lines < (long)_segmentWidth * rows)
        {
            throw new MalformedFileException($"A JPEG image of {length}×{header.Lines} samples stands where {_segmentWidth}×{rows} are due.");
        }

        if (header.Precision > _mostBits)
        {
            throw new MalformedFileException($"A JPEG image of {header.Precision} bits stands where the file claims {_mostBits}.");
        }

        if (_left.Length != Math.Max(length, _segmentWidth))
        {
            _left = new ushort[Math.Max(length, _segmentWidth)];
        }

        _leftStart = _left.Length;
        _lineLength = length;
    }

    /// <inheritdoc/>
    public void ReadRows(Span<ushort> target, int stride, int columns, int rows)
    {
        for (int row = 0; row < rows; row++)
        {
            ReadRow(target.Slice(row * stride, columns));
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _decoder.Dispose();

    private void ReadRow(Span<ushort> target)
    {
        if (_lineLength == _segmentWidth)
        {
            _decoder.ReadLine()[..target.Length].CopyTo(target);
            return;
        }

        if (_leftStart == _left.Length)
        {
            for (int at = 0; at < _left.Length; at += _lineLength)
            {
                _decoder.ReadLine().CopyTo(_left.AsSpan(at));
            }

            _leftStart = 0;
        }

        _left.AsSpan(_leftStart, target.Length).CopyTo(target);
        _leftStart += _segmentWidth;
    }
}
