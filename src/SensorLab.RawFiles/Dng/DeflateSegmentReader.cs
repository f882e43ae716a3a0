using System.IO.Compression;
using SensorLab.Frames;

namespace SensorLab.RawFiles.Dng;

/// <summary>Reads deflated segments row by row, with or without the horizontal predictor.</summary>
/// <remarks>RFC 1950 and 1951; TIFF 6.0, section 14, for the predictor.</remarks>
internal sealed class DeflateSegmentReader : ISegmentReader
{
    /// <summary>Deflate's highest ratio: a match of 258 bytes in two bits.</summary>
    private const int HighestRatio = 1032;

    private const int HeaderBytes = 2;

    /// <summary>FDICT in the header's second byte: a dictionary agreed on beforehand, which TIFF knows none of (RFC 1950, 2.2).</summary>
    private const int PresetDictionary = 0x20;

    private readonly RandomAccessFile _file;
    private readonly SampleCoding _coding;
    private readonly int _predictorDistance;
    private readonly byte[] _row;
    private readonly ushort[] _samples;
    private ZLibStream? _stream;

    /// <summary>Creates a reader.</summary>
    /// <param name="file">The file.</param>
    /// <param name="coding">How samples are stored.</param>
    /// <param name="segmentWidth">Columns of a segment.</param>
    /// <param name="predictorDistance">From which sample to the left each is predicted, 0 where it is not.</param>
    public DeflateSegmentReader(RandomAccessFile file, SampleCoding coding, int segmentWidth, int predictorDistance)
    {
        _file = file;
        _coding = coding;
        _predictorDistance = predictorDistance;
        _row = new byte[coding.RowBytes(segmentWidth)];
        _samples = new ushort[segmentWidth];
    }

    /// <inheritdoc/>
    public long LeastBytes(int columns, int rows) => ((long)_coding.RowBytes(columns) * rows / HighestRatio) + 1;

    /// <inheritdoc/>
    public void Start(long offset, long bytes, int rows)
    {
        Span<byte> header = stackalloc byte[HeaderBytes];
        _file.Read(offset, header[..(int)Math.Min(bytes, HeaderBytes)]);
        if ((header[1] & PresetDictionary) != 0)
        {
            throw new MalformedFileException("The deflated raw image asks for a dictionary that no file has.");
        }

        _stream?.Dispose();
        _stream = new ZLibStream(new FileSliceStream(_file, offset, bytes), CompressionMode.Decompress);
    }

    /// <inheritdoc/>
    public void ReadRows(Span<ushort> target, int stride, int columns, int rows)
    {
        for (int row = 0; row < rows; row++)
        {
            Inflate();
            _coding.Decode(_row, _samples);
            Undo(_samples);
            _samples.AsSpan(0, columns).CopyTo(target[(row * stride)..]);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _stream?.Dispose();

    private void Inflate()
    {
        try
        {
            _stream!.ReadExactly(_row);
        }
        catch (Exception exception) when (exception is InvalidDataException or EndOfStreamException)
        {
            throw new MalformedFileException("The deflated raw image is damaged or ends early.", exception);
        }
    }

    /// <summary>Sums differences modulo the samples' size.</summary>
    private void Undo(Span<ushort> samples)
    {
        if (_predictorDistance == 0)
        {
            return;
        }

        int mask = (1 << _coding.Bits) - 1;
        for (int i = _predictorDistance; i < samples.Length; i++)
        {
            samples[i] = (ushort)((samples[i] + samples[i - _predictorDistance]) & mask);
        }
    }
}
