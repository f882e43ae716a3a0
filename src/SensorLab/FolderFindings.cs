using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>Findings about files that give no frame.</summary>
internal static class FolderFindings
{
    /// <summary>Why a file is left out.</summary>
    public static Finding Of(string file, Exception cause) =>
        cause is UnsupportedFileException unsupported ? Unsupported(file, unsupported) : Unreadable(file, cause);

    public static Finding Unreadable(string file, Exception cause) => Create(
        FindingCode.FrameUnreadable,
        file,
        $"{file} cannot be read: {Sentence(cause.Message)} Left out.",
        "Copy the file from the card again; if that does not help, shoot the frame again.");

    public static Finding Unsupported(string file, UnsupportedFileException cause) => cause.IsUnsuitable
        ? Create(FindingCode.FrameUnsuitable, file, $"{file} does not hold what the sensor gave: {Sentence(cause.Message)} Left out.", cause.Remedy)
        : Create(FindingCode.FrameUnreadable, file, $"{file} cannot be decoded here: {Sentence(cause.Message)} Left out.", cause.Remedy);

    public static Finding RowWithoutFile(FrameRow row) => Create(
        FindingCode.FrameUnreadable,
        row.File,
        string.Create(CultureInfo.InvariantCulture, $"{FrameTable.FileName}, line {row.Line}: there is no file {row.File} in the frame set."),
        "Correct the name, put the file back, or remove the row.");

    private static Finding Create(string code, string file, string message, string remedy) => new()
    {
        Code = code,
        Severity = FindingSeverity.Warning,
        Frames = [file],
        Message = message,
        Remedy = remedy,
    };

    private static string Sentence(string text) => text.EndsWith('.') ? text : text + ".";
}
