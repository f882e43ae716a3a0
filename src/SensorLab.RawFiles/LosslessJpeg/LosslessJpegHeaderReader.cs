using System.Buffers.Binary;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>Reads marker segments up to the first scan.</summary>
/// <remarks>ITU-T T.81, annex B. One scan with all components, each sampled 1×1: what DNG allows.</remarks>
internal sealed class LosslessJpegHeaderReader
{
    private const int MostSegments = 256;
    private const int MostComponents = 4;
    private const int MostTables = 4;
    private const int LengthBytes = 2;
    private const int MostFillBytes = 64;

    /// <summary>A header's usual length and more: it is read at once, since a frame in tiles has hundreds of them.</summary>
    private const int AheadBytes = 512;

    private readonly RandomAccessFile _file;
    private readonly long _end;
    private readonly IReadOnlyList<HuffmanTable> _known;
    private readonly HuffmanTable?[] _tables = new HuffmanTable?[MostTables];
    private readonly byte[] _componentIds = new byte[MostComponents];
    private readonly byte[] _ahead = new byte[AheadBytes];
    private long _aheadStart;
    private int _aheadLength;
    private long _at;
    private int _components;
    private int _precision;
    private int _lines;
    private int _samplesPerLine;
    private int _restartInterval;

    private LosslessJpegHeaderReader(RandomAccessFile file, long offset, long length, IReadOnlyList<HuffmanTable> known)
    {
        _known = known;
        _file = file;
        _at = offset;
        _end = offset + length;
    }

    /// <summary>Reads the header of an image.</summary>
    /// <param name="file">The file.</param>
    /// <param name="offset">The image's first byte.</param>
    /// <param name="length">The image's bytes.</param>
    /// <param name="known">Tables of an earlier image, taken again where they are the same.</param>
    /// <exception cref="MalformedFileException">No JPEG image, damaged, or larger than its bytes can hold.</exception>
    /// <exception cref="UnsupportedFileException">Lossy JPEG, or a lossless process that DNG does not use.</exception>
    public static LosslessJpegHeader Read(RandomAccessFile file, long offset, long length, IReadOnlyList<HuffmanTable> known) =>
        new LosslessJpegHeaderReader(file, offset, length, known).ReadAll();

    private LosslessJpegHeader ReadAll()
    {
        if (NextMarker() != JpegMarker.StartOfImage)
        {
            throw new MalformedFileException("The compressed image does not start as a JPEG image.");
        }

        for (int i = 0; i < MostSegments; i++)
        {
            byte marker = NextMarker();
            byte[] body = ReadBody(marker);
            if (marker == JpegMarker.StartOfScan)
            {
                return HeaderOf(body);
            }

            Take(marker, body);
        }

        throw new MalformedFileException($"The JPEG image has more than {MostSegments} segments before its data.");
    }

    private byte NextMarker()
    {
        Span<byte> marker = stackalloc byte[2];
        int fillBytes = 0;
        do
        {
            Advance(marker, 1);
        }
        while (marker[0] == JpegMarker.Prefix && marker[1] == JpegMarker.Prefix && fillBytes++ < MostFillBytes);

        if (marker[0] != JpegMarker.Prefix || marker[1] is 0 or JpegMarker.Prefix)
        {
            throw new MalformedFileException("A marker of the JPEG image is missing.");
        }

        _at++;
        return marker[1];
    }

    private byte[] ReadBody(byte marker)
    {
        Span<byte> number = stackalloc byte[LengthBytes];
        Advance(number, LengthBytes);
        int length = BinaryPrimitives.ReadUInt16BigEndian(number) - LengthBytes;
        if (length < 0)
        {
            throw new MalformedFileException("A segment of the JPEG image claims a length below its own size.");
        }

        var body = new byte[MustRead(marker) ? length : 0];
        Advance(body, length);
        return body;
    }

    private static bool MustRead(byte marker) =>
        marker is (>= JpegMarker.BaselineFrame and <= JpegMarker.LastFrame) or JpegMarker.StartOfScan or JpegMarker.RestartInterval;

    private void Advance(Span<byte> target, int bytes)
    {
        if (Math.Max(bytes, target.Length) > _end - _at)
        {
            throw new MalformedFileException("The JPEG image ends inside its header.");
        }

        Read(target);
        _at += bytes;
    }

    private void Read(Span<byte> target)
    {
        if (target.Length > AheadBytes)
        {
            _file.Read(_at, target);
            return;
        }

        if (_at + target.Length > _aheadStart + _aheadLength)
        {
            _aheadStart = _at;
            _aheadLength = (int)Math.Min(AheadBytes, _end - _at);
            _file.Read(_at, _ahead.AsSpan(0, _aheadLength));
        }

        _ahead.AsSpan((int)(_at - _aheadStart), target.Length).CopyTo(target);
    }

    private void Take(byte marker, byte[] body)
    {
        switch (marker)
        {
            case JpegMarker.LosslessHuffmanFrame:
                TakeFrame(body);
                break;
            case JpegMarker.HuffmanTables:
                TakeTables(body);
                break;
            case JpegMarker.RestartInterval:
                _restartInterval = BinaryPrimitives.ReadUInt16BigEndian(Part(body, 0, 2));
                break;
            case JpegMarker.BaselineFrame or JpegMarker.ExtendedFrame or JpegMarker.ProgressiveFrame:
                throw new UnsupportedFileException(
                    "The raw image is compressed with lossy JPEG, which alters the noise.",
                    "Record raw files uncompressed or with lossless compression.",
                    isUnsuitable: true);
            case >= JpegMarker.BaselineFrame and <= JpegMarker.LastFrame and not JpegMarker.ArithmeticConditioning:
                throw new UnsupportedFileException(
                    $"The raw image uses the JPEG process 0x{marker:X2}, which is not decoded here.",
                    "Convert the file to an uncompressed or lossless DNG.",
                    isUnsuitable: false);
            default:
                break;
        }
    }

    private void TakeFrame(byte[] body)
    {
        ReadOnlySpan<byte> frame = Part(body, 0, 6);
        _precision = frame[0];
        _lines = BinaryPrimitives.ReadUInt16BigEndian(frame[1..]);
        _samplesPerLine = BinaryPrimitives.ReadUInt16BigEndian(frame[3..]);
        _components = frame[5];
        if (_precision is < 2 or > 16 || _lines == 0 || _samplesPerLine == 0 || _components is 0 or > MostComponents)
        {
            throw new MalformedFileException(
                $"The JPEG image claims {_samplesPerLine}×{_lines} samples of {_precision} bits in {_components} components.");
        }

        // One bit a sample is the least that Huffman coding can do.
        if ((long)_lines * _samplesPerLine * _components > 8 * (_end - _at))
        {
            throw new MalformedFileException("The JPEG image claims more samples than its bytes can hold.");
        }

        for (int i = 0; i < _components; i++)
        {
            ReadOnlySpan<byte> component = Part(body, 6 + (3 * i), 3);
            _componentIds[i] = component[0];
            RequireWholeSampling(component[1]);
        }
    }

    private void RequireWholeSampling(byte factors)
    {
        if (_components > 1 && factors != 0x11)
        {
            throw new UnsupportedFileException(
                "The raw image is a lossless JPEG with subsampled components, so it holds no plain mosaic.",
                "Record raw files in full size.",
                isUnsuitable: true);
        }
    }

    private void TakeTables(byte[] body)
    {
        int at = 0;
        while (at < body.Length)
        {
            ReadOnlySpan<byte> counts = Part(body, at + 1, 16);
            int id = body[at];
            int codes = 0;
            foreach (byte count in counts)
            {
                codes += count;
            }

            if (id >= MostTables)
            {
                throw new MalformedFileException($"The JPEG image has a Huffman table of the unknown kind 0x{id:X2}.");
            }

            _tables[id] = TableOf(counts, Part(body, at + 17, codes));
            at += 17 + codes;
        }
    }

    private HuffmanTable TableOf(ReadOnlySpan<byte> counts, ReadOnlySpan<byte> categories)
    {
        foreach (HuffmanTable table in _known)
        {
            if (table.IsOf(counts, categories))
            {
                return table;
            }
        }

        return new HuffmanTable(counts, categories);
    }

    private LosslessJpegHeader HeaderOf(byte[] scan)
    {
        int components = Part(scan, 0, 1)[0];
        if (_components == 0 || components != _components)
        {
            throw new MalformedFileException("The JPEG image's scan and frame have different components.");
        }

        var tables = new HuffmanTable[components];
        for (int i = 0; i < components; i++)
        {
            ReadOnlySpan<byte> component = Part(scan, 1 + (2 * i), 2);
            int id = component[1] >> 4;
            tables[i] = component[0] == _componentIds[i] && id < MostTables && _tables[id] is HuffmanTable table
                ? table
                : throw new MalformedFileException("The JPEG image's scan names a component or Huffman table that it lacks.");
        }

        ReadOnlySpan<byte> prediction = Part(scan, 1 + (2 * components), 3);
        int predictor = prediction[0];
        int pointTransform = prediction[2] & 15;
        if (predictor is < 1 or > 7 || pointTransform >= _precision)
        {
            throw new MalformedFileException($"The JPEG image claims predictor {predictor} and point transform {pointTransform}.");
        }

        return new LosslessJpegHeader
        {
            Precision = _precision,
            Lines = _lines,
            SamplesPerLine = _samplesPerLine,
            Tables = tables,
            Predictor = predictor,
            PointTransform = pointTransform,
            LinesPerRestart = LinesPerRestart(),
            DataOffset = _at,
        };
    }

    private int LinesPerRestart() => _restartInterval % _samplesPerLine == 0
        ? _restartInterval / _samplesPerLine
        : throw new MalformedFileException("The JPEG image restarts inside a line, which lossless coding does not allow.");

    private static ReadOnlySpan<byte> Part(byte[] body, int at, int length) => at + length <= body.Length
        ? body.AsSpan(at, length)
        : throw new MalformedFileException("A segment of the JPEG image is shorter than it must be.");
}
