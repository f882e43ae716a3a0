using SensorLab.Frames;
using SensorLab.RawFiles.LosslessJpeg;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>Chooses the segment readers of a raw image by its compression.</summary>
internal static class SegmentReaders
{
    private const uint BitsMovedDown = 2;

    /// <summary>Bits of a stored code: the directory's word, or the JPEG image's own where that says more.</summary>
    /// <param name="file">The file.</param>
    /// <param name="raw">The raw image's directory, already found to be sensor data.</param>
    /// <param name="layout">Its cut.</param>
    /// <exception cref="MalformedFileException">The first JPEG image is damaged.</exception>
    /// <exception cref="UnsupportedFileException">The first JPEG image is lossy.</exception>
    public static int BitDepthOf(RandomAccessFile file, TiffDirectory raw, SegmentLayout layout)
    {
        int bits = (int)(raw.Integer(TiffTag.BitsPerSample) ?? 0);
        if (raw.Integer(TiffTag.Compression) != TiffCompression.Jpeg)
        {
            return bits;
        }

        (long offset, long bytes) = layout.PlaceOf(0, 0);
        return Math.Max(bits, LosslessJpegHeaderReader.Read(file, offset, bytes, []).Precision);
    }

    /// <summary>One reader for each column of segments.</summary>
    /// <param name="file">The file.</param>
    /// <param name="tiff">Its directories.</param>
    /// <param name="raw">The raw image's directory, already found to be sensor data.</param>
    /// <param name="layout">Its cut.</param>
    /// <param name="bitDepth">Bits of a stored code.</param>
    /// <exception cref="MalformedFileException">The predictor makes no sense, or the file is too short for so many photosites.</exception>
    /// <exception cref="UnsupportedFileException">A bit order or predictor that is not known here.</exception>
    public static ISegmentReader[] Create(RandomAccessFile file, TiffReader tiff, TiffDirectory raw, SegmentLayout layout, int bitDepth)
    {
        if (raw.Integer(TiffTag.FillOrder) == BitsMovedDown)
        {
            throw new UnsupportedFileException(
                "Its photosites are packed from the lowest bit up.", "Convert the file to an uncompressed or lossless DNG.", isUnsuitable: false);
        }

        var coding = new SampleCoding(bitDepth, tiff.IsBigEndian);
        uint compression = raw.Integer(TiffTag.Compression) ?? TiffCompression.None;
        int distance = compression == TiffCompression.Deflate ? PredictorDistanceOf(raw, bitDepth) : 0;
        ISegmentReader CreateOne() => compression switch
        {
            TiffCompression.Jpeg => new LosslessJpegSegmentReader(file, layout.Width, bitDepth),
            TiffCompression.Deflate => new DeflateSegmentReader(file, coding, layout.Width, distance),
            _ => new UncompressedSegmentReader(file, coding, layout.Width),
        };

        ISegmentReader first = CreateOne();
        RequireRoom(file, raw, first);
        var readers = new ISegmentReader[layout.Across];
        readers[0] = first;
        for (int column = 1; column < readers.Length; column++)
        {
            readers[column] = CreateOne();
        }

        return readers;
    }

    /// <summary>Segments that overlap could claim more photosites than the file can hold.</summary>
    private static void RequireRoom(RandomAccessFile file, TiffDirectory raw, ISegmentReader reader)
    {
        (int width, int height) = DngLayout.SizeOf(raw);
        if (reader.LeastBytes(width, height) > file.Length)
        {
            throw new MalformedFileException($"The raw image claims {width}×{height} photosites, more than a file of {file.Length} bytes can hold.");
        }
    }

    private static int PredictorDistanceOf(TiffDirectory raw, int bitDepth)
    {
        int distance = raw.Integer(TiffTag.Predictor) switch
        {
            null or TiffPredictor.None => 0,
            TiffPredictor.Horizontal => 1,
            TiffPredictor.HorizontalByTwo => 2,
            TiffPredictor.HorizontalByFour => 4,
            TiffPredictor.FloatingPoint => throw new MalformedFileException("It claims a floating-point predictor for whole numbers."),
            uint other => throw new UnsupportedFileException(
                $"Its predictor {other} is not known here.", "Convert the file to an uncompressed or lossless DNG.", isUnsuitable: false),
        };
        return distance == 0 || bitDepth is 8 or 16
            ? distance
            : throw new MalformedFileException($"It claims a horizontal predictor for samples of {bitDepth} bits.");
    }
}
