using System.Globalization;
using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>Reads what a DNG's own directories say of the frame: TIFF, Exif and DNG tags, no maker's note.</summary>
/// <remarks>Exif 2.32, clauses 4.6.4 to 4.6.6; some bodies write Exif's tags into the first directory, as TIFF/EP has it.</remarks>
internal sealed class DngMetadata
{
    /// <summary>Exif's 16-bit ISO tag holds this where the setting is higher.</summary>
    private const uint IsoOverflow = 65535;

    private readonly TiffReader _tiff;

    private DngMetadata(TiffReader tiff) => _tiff = tiff;

    /// <summary>Reads the metadata.</summary>
    /// <param name="tiff">The file's directories.</param>
    /// <param name="mode">What the raw image says of the recording mode.</param>
    /// <exception cref="MalformedFileException">A value lies outside the file or is no number where one is due.</exception>
    public static FrameMetadata Read(TiffReader tiff, RecordingMode mode) => new DngMetadata(tiff).ReadAll(mode);

    private FrameMetadata ReadAll(RecordingMode mode)
    {
        TiffDirectory first = _tiff.First;
        return new FrameMetadata
        {
            Iso = Iso(),
            ExposureSeconds = Number(TiffTag.ExposureTime) is double seconds and > 0 ? seconds : null,
            ApertureFNumber = Number(TiffTag.FNumber) is double aperture and >= 0 ? aperture : null,
            Maker = first.Text(TiffTag.Make),
            Model = first.Text(TiffTag.Model) ?? first.Text(TiffTag.UniqueCameraModel),
            SerialNumber = first.Text(TiffTag.CameraSerialNumber) ?? Text(TiffTag.BodySerialNumber),
            Firmware = first.Text(TiffTag.Software),
            FirmwareIsConverter = IsConverted(),
            CaptureTime = CaptureTime(),
            Metering = Metering(),
            ExposureCompensationEv = Number(TiffTag.ExposureBiasValue),
            WhiteBalance = WhiteBalance(),
            Lens = Text(TiffTag.LensModel),
            Mode = mode,
        };
    }

    private TiffDirectory? HolderOf(ushort tag)
    {
        if (_tiff.Exif?.Has(tag) == true)
        {
            return _tiff.Exif;
        }

        return _tiff.First.Has(tag) ? _tiff.First : null;
    }

    private double? Number(ushort tag) => HolderOf(tag)?.Number(tag);

    private uint? Integer(ushort tag) => HolderOf(tag)?.Integer(tag);

    private string? Text(ushort tag) => HolderOf(tag)?.Text(tag);

    private int? Iso()
    {
        uint? iso = Integer(TiffTag.IsoSpeedRatings);
        if (iso is null or 0 or IsoOverflow)
        {
            iso = Integer(TiffTag.RecommendedExposureIndex) ?? Integer(TiffTag.IsoSpeed) ?? Integer(TiffTag.StandardOutputSensitivity) ?? iso;
        }

        return iso is > 0 and <= int.MaxValue ? (int)iso : null;
    }

    /// <summary>A converter names the raw file it made the DNG from, or itself as the preview's author.</summary>
    private bool IsConverted()
    {
        string? software = _tiff.First.Text(TiffTag.Software);
        string? previewAuthor = _tiff.First.Text(TiffTag.PreviewApplicationName);
        return software is not null
            && (_tiff.First.Has(TiffTag.OriginalRawFileName)
                || (previewAuthor is not null && software.StartsWith(previewAuthor, StringComparison.OrdinalIgnoreCase)));
    }

    private DateTimeOffset? CaptureTime()
    {
        string? text = Text(TiffTag.DateTimeOriginal) ?? _tiff.First.Text(TiffTag.DateTime);
        if (!DateTime.TryParseExact(text, "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
        {
            return null;
        }

        if (Text(TiffTag.SubSecTimeOriginal) is string fraction
            && double.TryParse("0." + fraction, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double seconds))
        {
            local = local.AddSeconds(seconds);
        }

        string? zone = Text(TiffTag.OffsetTimeOriginal);
        return zone is not null && DateTimeOffset.TryParseExact(
                $"{local:yyyy-MM-ddTHH:mm:ss.fffffff}{zone}", "yyyy-MM-ddTHH:mm:ss.fffffffzzz", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset exact)
            ? exact
            : new DateTimeOffset(local, TimeSpan.Zero);
    }

    private MeteringMode Metering() => Integer(TiffTag.MeteringMode) switch
    {
        1 => MeteringMode.Average,
        2 => MeteringMode.CentreWeighted,
        3 => MeteringMode.Spot,
        4 => MeteringMode.MultiSpot,
        5 => MeteringMode.Pattern,
        6 => MeteringMode.Partial,
        _ => MeteringMode.Unknown,
    };

    private string? WhiteBalance() => Integer(TiffTag.WhiteBalance) switch
    {
        0 => "auto",
        1 => "manual",
        _ => null,
    };
}
