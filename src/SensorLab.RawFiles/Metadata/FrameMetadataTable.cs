using SensorLab.Frames;
using Number = SensorLab.RawFiles.Metadata.MetadataTags.Boxed;
using NumberRow = SensorLab.RawFiles.Metadata.MetadataRow<SensorLab.RawFiles.Metadata.MetadataTags.Boxed>;
using TextRow = SensorLab.RawFiles.Metadata.MetadataRow<string>;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Where each field of a frame's metadata stands: one row a place, most trusted first.</summary>
/// <remarks>Numbers and meanings as in TIFF 6.0, Exif 2.32 and DNG 1.7; those of makers' notes are public knowledge of long standing.</remarks>
internal static class FrameMetadataTable
{
    /// <summary>Exif's PhotographicSensitivity is 65535 where the value does not fit: the other tags have it.</summary>
    private const int HighestShortIso = 65534;

    private const int HighestIso = 100_000_000;
    private const double LongestExposureSeconds = 1e6;
    private const double ShortestExposureSeconds = 1e-9;
    private const double HighestFNumber = 1000;
    private const double HighestApex = 20;
    private const double HighestCompensationEv = 20;
    private const double ColdestCelsius = -90;
    private const double HottestCelsius = 150;

    private static readonly NumberRow[] Iso =
    [
        NumberRow.Standard(34855, TagValues.Whole(1, HighestShortIso)),
        NumberRow.Standard(34866, TagValues.Whole(1, HighestIso)),
        NumberRow.Standard(34865, TagValues.Whole(1, HighestIso)),
        NumberRow.Standard(34867, TagValues.Whole(1, HighestIso)),
        NumberRow.Standard(23, (d, tag) => d.GetTagName(tag) == "ISO" ? TagValues.Whole(1, HighestShortIso)(d, tag) : null),
        NumberRow.Note(2, "ISO", TagValues.Whole(1, HighestShortIso)),
    ];

    private static readonly NumberRow[] ExposureSeconds = [NumberRow.Standard(33434, TagValues.Ratio(ShortestExposureSeconds, LongestExposureSeconds))];

    private static readonly NumberRow[] ApertureFNumber =
    [
        NumberRow.Standard(33437, TagValues.Ratio(0, HighestFNumber)),
        NumberRow.Standard(37378, (d, tag) => TagValues.Ratio(0, HighestApex)(d, tag) is Number apex ? new Number(Math.Pow(2, apex.Value / 2)) : null),
    ];

    private static readonly NumberRow[] CompensationEv = [NumberRow.Standard(37380, TagValues.Ratio(-HighestCompensationEv, HighestCompensationEv))];

    private static readonly NumberRow[] TemperatureCelsius =
    [
        NumberRow.Standard(37888, TagValues.Ratio(ColdestCelsius, HottestCelsius)),
        NumberRow.Note(0xC40C, "Camera Temperature", MakerNoteValues.OffsetTemperature),
    ];

    private static readonly TextRow[] Maker = [TextRow.Standard(271, TagValues.Text)];

    private static readonly TextRow[] Model = [TextRow.Standard(272, TagValues.Text), TextRow.Standard(50708, TagValues.Text)];

    private static readonly TextRow[] UniqueModel = [TextRow.Standard(50708, TagValues.Text)];

    private static readonly TextRow[] SerialNumber =
    [
        TextRow.Standard(42033, TagValues.Text),
        TextRow.Standard(50735, TagValues.Text),
        TextRow.Note(0x000C, "Camera Serial Number", (d, tag) => TagValues.Clean(d.GetDescription(tag))),
        TextRow.Note(0x00A0, "Camera Serial Number", TagValues.Text),
        TextRow.Note(0x001D, "Camera Serial Number", TagValues.Text),
        TextRow.Note(0x0010, "Serial Number", TagValues.Text),
        TextRow.Note(0x0101, "Serial Number", TagValues.Text),
        TextRow.Note(0x0404, "Serial Number", TagValues.Text),
        TextRow.Note(0x0002, "Serial Number", TagValues.Text),
        TextRow.Note(0x0025, "Internal Serial Number", TagValues.Text),
    ];

    private static readonly TextRow[] NotedFirmware =
    [
        TextRow.Note(0x0007, "Firmware Version", TagValues.Text),
        TextRow.Note(0x0405, "Firmware", TagValues.Text),
        TextRow.Note(0x0017, "Firmware", TagValues.Text),
    ];

    private static readonly TextRow[] Software = [TextRow.Standard(305, TagValues.Text)];

    private static readonly TextRow[] Metering =
    [
        TextRow.Standard(37383, TagValues.Named(
            (1, nameof(MeteringMode.Average)),
            (2, nameof(MeteringMode.CentreWeighted)),
            (3, nameof(MeteringMode.Spot)),
            (4, nameof(MeteringMode.MultiSpot)),
            (5, nameof(MeteringMode.Pattern)),
            (6, nameof(MeteringMode.Partial)))),
    ];

    private static readonly TextRow[] WhiteBalance =
    [
        TextRow.Note(0xB054, "White Balance 2", TagValues.Meaning),
        TextRow.Note(0x0005, "White Balance", TagValues.Meaning),
        TextRow.Note(0x0003, "White Balance", TagValues.Meaning),
        TextRow.Note(0x1002, "White Balance", TagValues.Meaning),
        TextRow.Note(0xC207, "White Balance", TagValues.Meaning),
        TextRow.Note(0x0500, "White Balance 2", TagValues.Meaning),
        TextRow.Note(0x0007, "White Balance", TagValues.Meaning),
        TextRow.Standard(41987, TagValues.Named((0, "auto"), (1, "manual"))),
    ];

    private static readonly TextRow[] Lens =
    [
        TextRow.Standard(42036, TagValues.Text),
        TextRow.Note(0x0095, "Lens Model", TagValues.Text),
        TextRow.Note(0x0203, "Lens Model", TagValues.Text),
        TextRow.Note(0x0084, "Lens", TagValues.Meaning),
        TextRow.Note(0x0051, "Lens Type", TagValues.Meaning),
    ];

    private static readonly TextRow[] Look =
    [
        TextRow.Note(0x0023, "Picture Control", MakerNoteValues.ControlName),
        TextRow.Beside((0x0023, "Picture Control"), 0x00BD, MakerNoteValues.ControlName),
        TextRow.Beside((0xC407, "White Balance"), 0x00A0, MakerNoteValues.Style),
        TextRow.Note(0x1401, "Film Mode", TagValues.MeaningOrNumber),
        TextRow.Beside((0xB054, "White Balance 2"), 0xB020, TagValues.Text),
        TextRow.Note(0x0089, "Photo Style", TagValues.MeaningOrNumber),
        TextRow.Note(0x0520, "Picture Mode", TagValues.Meaning),
    ];

    /// <summary>Fills the fields.</summary>
    /// <param name="tags">The file's directories.</param>
    public static FrameMetadata Interpret(MetadataTags tags)
    {
        string? maker = tags.First(Maker);
        string? model = tags.First(Model);
        string? noted = tags.First(NotedFirmware);
        string? software = tags.First(Software);
        return new FrameMetadata
        {
            Iso = (int?)tags.FirstNumber(Iso),
            ExposureSeconds = tags.FirstNumber(ExposureSeconds),
            ApertureFNumber = tags.FirstNumber(ApertureFNumber),
            Maker = maker,
            Model = model,
            SerialNumber = tags.First(SerialNumber),
            Firmware = noted ?? software,
            FirmwareIsConverter = noted is null && software is not null && ConverterName.Names(software, maker, model, tags.First(UniqueModel)),
            CaptureTime = CaptureTimes.Read(tags),
            Metering = Enum.TryParse(tags.First(Metering), out MeteringMode metering) ? metering : MeteringMode.Unknown,
            ExposureCompensationEv = tags.FirstNumber(CompensationEv),
            WhiteBalance = tags.First(WhiteBalance),
            Look = tags.First(Look),
            Lens = tags.First(Lens),
            TemperatureCelsius = tags.FirstNumber(TemperatureCelsius),
            Mode = RecordingModeTable.Interpret(tags),
        };
    }
}
