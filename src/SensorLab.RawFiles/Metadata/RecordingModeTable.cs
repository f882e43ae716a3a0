using System.Globalization;
using MetadataExtractor;
using SensorLab.Frames;
using Directory = MetadataExtractor.Directory;
using NumberRow = SensorLab.RawFiles.Metadata.MetadataRow<SensorLab.RawFiles.Metadata.MetadataTags.Boxed>;
using TextRow = SensorLab.RawFiles.Metadata.MetadataRow<string>;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Where the parts of the recording mode stand, as <see cref="FrameMetadataTable"/>.</summary>
internal static class RecordingModeTable
{
    private const int Photometric = 262;
    private const int ColourFilterArray = 32803;
    private const int LinearRaw = 34892;
    private const int DngVersion = 50706;
    private const int LowestBitDepth = 8;
    private const int HighestBitDepth = 16;

    private static readonly (int, string) Curtain = (0xB054, "White Balance 2");
    private static readonly (int, string) Control = (0x0023, "Picture Control");
    private static readonly (int, string) Film = (0x1401, "Film Mode");

    private static readonly NumberRow[] BitDepth =
    [
        NumberRow.Standard(258, (d, tag) => HoldsSensorData(d) ? TagValues.Whole(LowestBitDepth, HighestBitDepth)(d, tag) : null),
    ];

    private static readonly TextRow[] NotedCompression = [TextRow.Beside(Control, 0x0093, Coding)];

    private static readonly TextRow[] PlainCompression = [TextRow.Standard(259, OfSensorData((1, "uncompressed")))];

    private static readonly TextRow[] DngCompression =
    [
        TextRow.Standard(259, OfSensorData((1, "uncompressed"), (7, "lossless"), (8, "deflate"), (32946, "deflate"), (34892, "lossy"))),
    ];

    private static readonly TextRow[] Shutter =
    [
        TextRow.Note(0x009F, "Shutter Type", TagValues.Named((0, "mechanical"), (1, "electronic"), (2, "hybrid"))),
        TextRow.Beside(Film, 0x1050, TagValues.Named((0, "mechanical"), (1, "electronic"), (2, "electronic"), (3, "electronic first curtain"))),
        TextRow.Beside(Control, 0x0034, TagValues.Named((0, "mechanical"), (16, "electronic"), (48, "electronic first curtain"), (64, "electronic"), (80, "mechanical"), (81, "electronic first curtain"), (96, "electronic"))),
        TextRow.Beside(Curtain, 0x201A, TagValues.Named((1, "electronic first curtain"))),
    ];

    private static readonly TextRow[] Drive =
    [
        TextRow.Note(0xC105, "Continuous Drive Mode", MakerNoteValues.Drive),
        TextRow.Note(0x0089, "Shooting Mode", MakerNoteValues.Drive),
        TextRow.Note(0x002A, "Burst Mode", MakerNoteValues.Drive),
        TextRow.Note(0xB049, "Release Mode", MakerNoteValues.Drive),
        TextRow.Note(0x0600, "Drive Mode", MakerNoteValues.Drive),
        TextRow.Note(0x0003, "Drive Mode", MakerNoteValues.Drive),
    ];

    private static readonly TextRow[] NoiseReduction =
    [
        TextRow.Note(0x0049, "Long Exposure Noise Reduction", MakerNoteValues.Switch),
        TextRow.Note(0x2008, "Long Exposure Noise Reduction", MakerNoteValues.Switch),
        TextRow.Note(0xB04E, "Long Exposure Noise Reduction", MakerNoteValues.Switch),
        TextRow.Beside(Control, 0x0095, MakerNoteValues.Switch),
        TextRow.Standard(50935, Applied),
    ];

    private static readonly TextRow[] Crop =
    [
        TextRow.Note(0x001B, "Crop High Speed", TagValues.Meaning),
        TextRow.Beside(Film, 0x104D, TagValues.MeaningOrNumber),
    ];

    /// <summary>Fills the parts.</summary>
    /// <param name="tags">The file's directories.</param>
    public static RecordingMode Interpret(MetadataTags tags)
    {
        bool isDng = tags.Standard.Any(d => d.ContainsTag(DngVersion));
        return new RecordingMode(
            BitDepth: (int?)tags.FirstNumber(BitDepth),
            Compression: tags.First(isDng ? DngCompression : [.. NotedCompression, .. PlainCompression]),
            Shutter: tags.First(Shutter),
            Drive: tags.First(Drive),
            NoiseReduction: tags.First(NoiseReduction),
            Crop: tags.First(Crop));
    }

    private static bool HoldsSensorData(Directory directory) =>
        directory.TryGetInt32(Photometric, out int kind) && kind is ColourFilterArray or LinearRaw;

    private static Func<Directory, int, string?> OfSensorData(params (int, string)[] names)
    {
        Func<Directory, int, string?> named = TagValues.Named(names);
        return (directory, tag) => HoldsSensorData(directory) ? named(directory, tag) : null;
    }

    private static string? Coding(Directory directory, int tag)
    {
        string meaning = TagValues.Meaning(directory, tag)?.ToLowerInvariant() ?? "";
        return new[] { "lossless", "lossy", "uncompressed" }.FirstOrDefault(kind => meaning.Contains(kind, StringComparison.Ordinal));
    }

    /// <summary>DNG's NoiseReductionApplied: 0 none, 1 all there could be; 0/0 not known.</summary>
    private static string? Applied(Directory directory, int tag) => TagValues.Quotient(directory, tag) switch
    {
        null or < 0 or > 1 => null,
        0 => "off",
        double part => string.Create(CultureInfo.InvariantCulture, $"applied in the file: {part:0.##}"),
    };
}
