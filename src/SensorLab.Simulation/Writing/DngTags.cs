using System.Globalization;
using SensorLab.Frames;

namespace SensorLab.Simulation.Writing;

/// <summary>The tags of a DNG: what lies with the mosaic, what with the camera, and what in Exif.</summary>
internal static class DngTags
{
    private const ushort PhotometricColourFilterArray = 32803;
    private const ushort PhotometricLinearRaw = 34892;
    private const ushort IlluminantD65 = 21;
    private const string DateFormat = "yyyy:MM:dd HH:mm:ss";

    // XYZ to camera, for a converter's picture only; no figure hangs on it.
    private static readonly double[] ColourMatrix = [0.8, -0.2, -0.1, -0.4, 1.2, 0.2, -0.1, 0.2, 0.7];

    /// <summary>Adds what describes the mosaic.</summary>
    public static void AddMosaic(TiffDirectory image, RawFrame frame, DngOptions options)
    {
        MosaicLayout layout = frame.Layout;
        bool isMonochrome = layout.ColourFilterArray.IsMonochrome;
        image.AddLong(TiffTag.NewSubfileType, 0);
        image.AddLong(TiffTag.ImageWidth, (uint)layout.WidthPixels);
        image.AddLong(TiffTag.ImageLength, (uint)layout.HeightPixels);
        image.AddShort(TiffTag.BitsPerSample, (ushort)options.BitsPerSample);
        image.AddShort(TiffTag.Compression, CompressionCode(options.Compression));
        image.AddShort(TiffTag.PhotometricInterpretation, isMonochrome ? PhotometricLinearRaw : PhotometricColourFilterArray);
        image.AddShort(TiffTag.SamplesPerPixel, 1);
        image.AddShort(TiffTag.PlanarConfiguration, 1);
        image.AddLong(TiffTag.ActiveArea, Edges(layout.ActiveArea));
        if (layout.MaskedAreas.Count > 0)
        {
            image.AddLong(TiffTag.MaskedAreas, [.. layout.MaskedAreas.SelectMany(Edges)]);
        }

        if (!isMonochrome)
        {
            image.AddShort(TiffTag.CfaRepeatPatternDim, (ushort)layout.ColourFilterArray.Rows, (ushort)layout.ColourFilterArray.Columns);
            image.AddBytes(TiffTag.CfaPattern, PatternBytes(layout));
            image.AddBytes(TiffTag.CfaPlaneColor, 0, 1, 2);
            image.AddShort(TiffTag.CfaLayout, 1);
        }

        if (options.LinearisationTable is { } table)
        {
            image.AddShort(TiffTag.LinearizationTable, table);
        }

        AddLevels(image, frame);
    }

    /// <summary>Adds what belongs into the first directory.</summary>
    public static void AddCamera(TiffDirectory first, RawFrame frame, DngOptions options)
    {
        FrameMetadata metadata = frame.Metadata;
        first.AddShort(TiffTag.Orientation, 1);
        AddText(first, TiffTag.Make, metadata.Maker);
        AddText(first, TiffTag.Model, metadata.Model);
        AddText(first, TiffTag.Software, metadata.Firmware);
        AddText(first, TiffTag.DateTime, metadata.CaptureTime?.ToString(DateFormat, CultureInfo.InvariantCulture));
        AddText(first, TiffTag.CameraSerialNumber, metadata.SerialNumber);
        first.AddBytes(TiffTag.DngVersion, 1, 4, 0, 0);
        first.AddBytes(TiffTag.DngBackwardVersion, 1, 1, 0, 0);
        AddText(first, TiffTag.UniqueCameraModel, $"{metadata.Maker} {metadata.Model}".Trim());
        if (!frame.Layout.ColourFilterArray.IsMonochrome)
        {
            first.AddSignedRational(TiffTag.ColorMatrix1, [.. ColourMatrix.Select(Rational.Signed)]);
            first.AddShort(TiffTag.CalibrationIlluminant1, IlluminantD65);
            first.AddRational(TiffTag.AsShotNeutral, Rational.Signed(0.52), Rational.Signed(1), Rational.Signed(0.64));
        }

        if (options.NoiseReductionApplied is { } applied)
        {
            first.AddRational(TiffTag.NoiseReductionApplied, Rational.Of(applied));
        }
    }

    /// <summary>Adds what belongs into the Exif directory.</summary>
    public static void AddExif(TiffDirectory exif, FrameMetadata metadata)
    {
        exif.AddUndefined(TiffTag.ExifVersion, "0232"u8);
        if (metadata.ExposureSeconds is { } seconds)
        {
            exif.AddRational(TiffTag.ExposureTime, Rational.Of(seconds));
        }

        if (metadata.ApertureFNumber is { } aperture)
        {
            exif.AddRational(TiffTag.FNumber, Rational.Of(aperture));
        }

        if (metadata.Iso is { } iso)
        {
            exif.AddShort(TiffTag.PhotographicSensitivity, (ushort)Math.Min(iso, ushort.MaxValue));
        }

        if (metadata.ExposureCompensationEv is { } compensation)
        {
            exif.AddSignedRational(TiffTag.ExposureBiasValue, Rational.Signed(compensation));
        }

        if (metadata.CaptureTime is { } time)
        {
            exif.AddText(TiffTag.DateTimeOriginal, time.ToString(DateFormat, CultureInfo.InvariantCulture));
            exif.AddText(TiffTag.OffsetTimeOriginal, time.ToString("zzz", CultureInfo.InvariantCulture));
        }

        exif.AddShort(TiffTag.MeteringMode, MeteringCode(metadata.Metering));
        if (metadata.WhiteBalance is { } balance)
        {
            exif.AddShort(TiffTag.WhiteBalance, balance == "auto" ? (ushort)0 : (ushort)1);
        }

        AddText(exif, TiffTag.BodySerialNumber, metadata.SerialNumber);
        AddText(exif, TiffTag.LensModel, metadata.Lens);
    }

    private static void AddLevels(TiffDirectory image, RawFrame frame)
    {
        MosaicLayout layout = frame.Layout;
        if (frame.Declared.BlackDn.Count > 0)
        {
            ColourFilterArray filters = layout.ColourFilterArray;
            image.AddShort(TiffTag.BlackLevelRepeatDim, (ushort)filters.Rows, (ushort)filters.Columns);
            image.AddRational(
                TiffTag.BlackLevel,
                [.. Sites(filters).Select(site => Rational.Of(frame.Declared.BlackDn[filters.ChannelAt(site.Row, site.Column)]))]);
        }

        if (frame.Declared.WhiteDn is { } white)
        {
            image.AddLong(TiffTag.WhiteLevel, (uint)Math.Round(white));
        }
    }

    private static byte[] PatternBytes(MosaicLayout layout) =>
        [.. layout.ColourFilterArray.Pattern.Select(letter => letter switch
        {
            'R' => (byte)0,
            'B' => (byte)2,
            _ => (byte)1,
        })];

    private static IEnumerable<(int Row, int Column)> Sites(ColourFilterArray filters) =>
        from row in Enumerable.Range(0, filters.Rows)
        from column in Enumerable.Range(0, filters.Columns)
        select (row, column);

    private static uint[] Edges(PixelRectangle area) => [(uint)area.Y, (uint)area.X, (uint)area.Bottom, (uint)area.Right];

    private static void AddText(TiffDirectory directory, TiffTag tag, string? value)
    {
        if (!string.IsNullOrEmpty(value))
        {
            directory.AddText(tag, value);
        }
    }

    private static ushort CompressionCode(DngCompression compression) => compression switch
    {
        DngCompression.Deflate => 8,
        DngCompression.Lossless => 7,
        _ => 1,
    };

    private static ushort MeteringCode(MeteringMode mode) => mode switch
    {
        MeteringMode.Average => 1,
        MeteringMode.CentreWeighted => 2,
        MeteringMode.Spot => 3,
        MeteringMode.MultiSpot => 4,
        MeteringMode.Pattern => 5,
        MeteringMode.Partial => 6,
        _ => 0,
    };
}
