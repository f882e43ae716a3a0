using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>Finds the directory of the raw image, and refuses what is no sensor data.</summary>
/// <remarks>DNG 1.7, chapter 3: the main image has NewSubfileType 0, in the first directory or in a sub-directory.</remarks>
internal static class DngRawImage
{
    private const string RecordRaw = "Record raw files uncompressed or with lossless compression, without conversion.";

    /// <summary>The directory of the raw image.</summary>
    /// <param name="tiff">The file's directories.</param>
    /// <exception cref="MalformedFileException">A directory is damaged.</exception>
    /// <exception cref="UnsupportedFileException">There is no raw image.</exception>
    public static TiffDirectory Find(TiffReader tiff)
    {
        TiffDirectory? largest = null;
        ulong largestArea = 0;
        foreach (TiffDirectory directory in tiff.Images)
        {
            ulong area = (ulong)(directory.Integer(TiffTag.ImageWidth) ?? 0) * (directory.Integer(TiffTag.ImageLength) ?? 0);
            if (IsRaw(directory) && (largest is null || area > largestArea))
            {
                (largest, largestArea) = (directory, area);
            }
        }

        return largest ?? throw Unsuitable("It holds no raw image, only developed ones.", RecordRaw);
    }

    /// <summary>Whether a directory is that of a main image of sensor data.</summary>
    /// <param name="directory">The directory.</param>
    /// <exception cref="MalformedFileException">The directory is damaged.</exception>
    public static bool IsRaw(TiffDirectory directory) =>
        (directory.Integer(TiffTag.NewSubfileType) ?? 0) == 0 &&
        directory.Integer(TiffTag.PhotometricInterpretation) is TiffPhotometric.ColourFilterArray or TiffPhotometric.LinearRaw;

    /// <summary>Refuses raw images from which noise cannot be measured, or that are not decoded here.</summary>
    /// <param name="raw">The raw image's directory.</param>
    /// <exception cref="MalformedFileException">The directory is damaged.</exception>
    /// <exception cref="UnsupportedFileException">
    /// Lossy, demosaiced, floating-point or noise-reduced data, or filters that cannot be measured; or a compression or interleaving not known here.
    /// </exception>
    public static void RequireSensorData(TiffDirectory raw)
    {
        RequireLossless(raw.Integer(TiffTag.Compression) ?? TiffCompression.None);
        RequireOneInteger(raw);
        RequireMosaic(raw);
        if (raw.Number(TiffTag.NoiseReductionApplied) is > 0)
        {
            throw Unsuitable("Its noise was reduced, by its own account (NoiseReductionApplied).", "Switch noise reduction of raw files off, and don't convert with it.");
        }

        foreach (ushort tag in (ReadOnlySpan<ushort>)[TiffTag.RowInterleaveFactor, TiffTag.ColumnInterleaveFactor, TiffTag.SubTileBlockSize])
        {
            if (raw.Integers(tag, 2).Any(factor => factor != 1))
            {
                throw Unreadable($"Its photosites are interleaved (tag {tag}).");
            }
        }
    }

    private static void RequireLossless(uint compression)
    {
        switch (compression)
        {
            case TiffCompression.None or TiffCompression.Jpeg or TiffCompression.Deflate:
                return;
            case TiffCompression.LossyJpeg:
                throw Unsuitable("It is compressed with lossy JPEG, which alters the noise.", RecordRaw);
            case TiffCompression.JpegXl:
                throw Unsuitable("It is compressed with JPEG XL, which alters the noise.", RecordRaw);
            default:
                throw Unreadable($"Its compression {compression} is not known here.");
        }
    }

    private static void RequireOneInteger(TiffDirectory raw)
    {
        uint samples = raw.Integer(TiffTag.SamplesPerPixel) ?? 1;
        if (samples != 1)
        {
            throw Unsuitable($"It has {samples} samples a pixel: demosaiced, so no longer what the sensor gave.", RecordRaw);
        }

        if (raw.Integer(TiffTag.SampleFormat) is uint format and not 1)
        {
            throw Unsuitable(
                format == 3 ? "It holds floating-point numbers, not the sensor's codes." : $"Its sample format {format} is not the sensor's codes.",
                RecordRaw);
        }

        if (raw.Integer(TiffTag.BitsPerSample) is null or < 8 or > 16)
        {
            throw Unreadable("It has fewer than 8 or more than 16 bits a photosite.");
        }
    }

    private static void RequireMosaic(TiffDirectory raw)
    {
        if (raw.Integer(TiffTag.PhotometricInterpretation) != TiffPhotometric.ColourFilterArray)
        {
            return;
        }

        if ((raw.Integer(TiffTag.CfaLayout) ?? 1) != 1)
        {
            throw NotMeasurable("Its colour filters do not stand in a rectangular grid.");
        }

        _ = PatternSizeOf(raw);
    }

    /// <summary>Rows and columns after which the colour filters repeat.</summary>
    /// <param name="raw">The raw image's directory.</param>
    /// <exception cref="UnsupportedFileException">The file does not say, or says less than 1 or more than 8.</exception>
    public static (int Rows, int Columns) PatternSizeOf(TiffDirectory raw) => raw.Integers(TiffTag.CfaRepeatPatternDim, 2) switch
    {
        [var rows and >= 1 and <= ColourFilterArray.LargestSide, var columns and >= 1 and <= ColourFilterArray.LargestSide] => ((int)rows, (int)columns),
        [var rows, var columns] => throw NotMeasurable($"Its colour filters are said to repeat after {rows} rows and {columns} columns, where 1 to {ColourFilterArray.LargestSide} can be."),
        _ => throw NotMeasurable("It does not say after how many rows and columns its colour filters repeat."),
    };

    /// <summary>The refusal of a mosaic whose filters are none that can be measured.</summary>
    /// <param name="reason">What is in the way.</param>
    public static UnsupportedFileException NotMeasurable(string reason) => Unsuitable(
        reason,
        "Frames of this sensor can't be measured: use a body whose filters are red, green and blue in a pattern of 8×8 at most, or a monochrome one.");

    private static UnsupportedFileException Unsuitable(string reason, string remedy) => new(reason, remedy, isUnsuitable: true);

    private static UnsupportedFileException Unreadable(string reason) =>
        new(reason, "Convert the file to an uncompressed or lossless DNG.", isUnsuitable: false);
}
