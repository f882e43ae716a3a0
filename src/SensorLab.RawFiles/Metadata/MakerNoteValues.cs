using System.Text;
using MetadataExtractor;
using Directory = MetadataExtractor.Directory;
using Number = SensorLab.RawFiles.Metadata.MetadataTags.Boxed;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Ways to read the tags of makers' notes that need more than a table of names.</summary>
internal static class MakerNoteValues
{
    private const int StyleIndex = 10;
    private const int TemperatureOffset = 128;
    private const int ControlNameCharacters = 20;

    private static readonly Dictionary<int, string> Styles = new()
    {
        [0x21] = "User 1",
        [0x22] = "User 2",
        [0x23] = "User 3",
        [0x41] = "External 1",
        [0x42] = "External 2",
        [0x43] = "External 3",
        [0x81] = "Standard",
        [0x82] = "Portrait",
        [0x83] = "Landscape",
        [0x84] = "Neutral",
        [0x85] = "Faithful",
        [0x86] = "Monochrome",
        [0x87] = "Auto",
        [0x88] = "Fine Detail",
    };

    /// <summary>The picture style: the eleventh value of the processing information.</summary>
    public static string? Style(Directory directory, int tag) =>
        directory.GetObject(tag) is ushort[] values && values.Length > StyleIndex ? Styles.GetValueOrDefault(values[StyleIndex]) : null;

    /// <summary>The picture control's name behind its version: at byte 4, from version 3 on at byte 8.</summary>
    public static string? ControlName(Directory directory, int tag)
    {
        if (directory.GetObject(tag) is not byte[] bytes || bytes.Length < 8 + ControlNameCharacters)
        {
            return null;
        }

        int start = bytes[0] == '0' && bytes[1] >= '3' ? 8 : 4;
        string? name = TagValues.Clean(Encoding.ASCII.GetString(bytes, start, ControlNameCharacters));
        return name is not null && name.All(c => char.IsAsciiLetterOrDigit(c) || c is ' ' or '-' or '_') ? name : null;
    }

    /// <summary>A temperature stored with 128 added; 0 stands for none.</summary>
    public static Number? OffsetTemperature(Directory directory, int tag) =>
        directory.TryGetInt32(tag, out int value) && value is > 0 and < 256 ? new Number(value - TemperatureOffset) : null;

    /// <summary>"single" or "continuous" where the drive is one of them, else what the note calls it.</summary>
    public static string? Drive(Directory directory, int tag)
    {
        string? meaning = TagValues.Meaning(directory, tag)?.ToLowerInvariant();
        return meaning switch
        {
            null => null,
            "off" => "single",
            _ when meaning.Contains("single", StringComparison.Ordinal) || meaning == "normal" => "single",
            _ when meaning.Contains("continuous", StringComparison.Ordinal) || meaning is "on" or "infinite" => "continuous",
            _ => meaning,
        };
    }

    /// <summary>What a note calls a setting, in lower case; 0 and 1 are off and on.</summary>
    public static string? Switch(Directory directory, int tag)
    {
        bool isNumber = directory.TryGetInt32(tag, out int value);
        string? meaning = TagValues.Meaning(directory, tag)?.ToLowerInvariant();
        return meaning ?? (isNumber ? value switch { 0 => "off", 1 => "on", _ => null } : null);
    }
}
