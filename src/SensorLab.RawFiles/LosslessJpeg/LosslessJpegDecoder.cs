using SensorLab.Frames;

namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>Decodes lossless JPEG line by line, from a window of the file: no image is ever held whole.</summary>
/// <remarks>ITU-T T.81, process 14 (sequential, Huffman coding, annex H). Used again for the next image by <see cref="Start"/>.</remarks>
internal sealed class LosslessJpegDecoder : IDisposable
{
    private readonly RandomAccessFile _file;
    private readonly EntropyBytes _bytes;
    private readonly DifferenceReader _differences;
    private LosslessJpegHeader? _header;
    private ushort[] _line = [];
    private ushort[] _above = [];
    private ushort[] _shifted = [];
    private int _linesRead;

    /// <summary>Creates a decoder.</summary>
    /// <param name="file">The file that holds the images; it stays the caller's.</param>
    public LosslessJpegDecoder(RandomAccessFile file)
    {
        _file = file;
        _bytes = new EntropyBytes(file);
        _differences = new DifferenceReader(_bytes);
    }

    /// <summary>Starts an image.</summary>
    /// <param name="offset">Its first byte.</param>
    /// <param name="length">Its bytes.</param>
    /// <returns>The image's header.</returns>
    /// <exception cref="MalformedFileException">No JPEG image, damaged, or larger than its bytes can hold.</exception>
    /// <exception cref="UnsupportedFileException">Lossy JPEG, or a lossless process that DNG does not use.</exception>
    public LosslessJpegHeader Start(long offset, long length)
    {
        LosslessJpegHeader header = LosslessJpegHeaderReader.Read(_file, offset, length, _header?.Tables ?? []);
        _header = header;
        _linesRead = 0;
        if (_line.Length < header.LineLength)
        {
            _line = new ushort[header.LineLength];
            _above = new ushort[header.LineLength];
        }

        _bytes.Start(header.DataOffset, offset + length);
        _differences.Restart();
        return header;
    }

    /// <summary>Decodes the next line.</summary>
    /// <returns>The samples of all components, alternating; valid until the next call.</returns>
    /// <exception cref="MalformedFileException">The data are damaged, or the image has no more lines.</exception>
    public ReadOnlySpan<ushort> ReadLine()
    {
        LosslessJpegHeader header = _header ?? throw new InvalidOperationException("No image was started.");
        if (_linesRead == header.Lines)
        {
            throw new MalformedFileException("The JPEG image has fewer lines than its segment.");
        }

        (_line, _above) = (_above, _line);
        Span<ushort> line = _line.AsSpan(0, header.LineLength);
        bool isFirst = header.LinesPerRestart == 0 ? _linesRead == 0 : _linesRead % header.LinesPerRestart == 0;
        if (isFirst && _linesRead > 0)
        {
            _bytes.PassRestart(((_linesRead / header.LinesPerRestart) - 1) & 7);
            _differences.Restart();
        }

        _differences.Read(line, header.Tables);
        Predict(line, header, isFirst);
        _linesRead++;
        return header.PointTransform == 0 ? line : Shifted(line, header.PointTransform);
    }

    /// <inheritdoc/>
    public void Dispose() => _bytes.Dispose();

    private void Predict(Span<ushort> line, LosslessJpegHeader header, bool isFirst)
    {
        int bits = header.Precision - header.PointTransform;
        if (isFirst)
        {
            LinePredictor.FirstLine(line, header.Components, 1 << (bits - 1));
        }
        else
        {
            LinePredictor.NextLine(line, _above, header.Components, header.Predictor);
        }

        LinePredictor.RequirePrecision(line, bits);
    }

    private ReadOnlySpan<ushort> Shifted(ReadOnlySpan<ushort> line, int pointTransform)
    {
        if (_shifted.Length < line.Length)
        {
            _shifted = new ushort[line.Length];
        }

        for (int i = 0; i < line.Length; i++)
        {
            _shifted[i] = (ushort)(line[i] << pointTransform);
        }

        return _shifted.AsSpan(0, line.Length);
    }
}
