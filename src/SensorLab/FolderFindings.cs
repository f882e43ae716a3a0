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

    /// <summary>A folder of the set that could not be listed.</summary>
    public static Finding Unlisted(string folder) => Create(
        FindingCode.FrameUnreadable,
        folder,
        $"The folder {folder} cannot be listed: it may not be read, or its name is no text. What is in it is left out.",
        "Let it be read, or give it another name; a folder that holds no frames does not matter.");

    public static Finding RowWithoutFile(FrameRow row) => Create(
        FindingCode.FrameUnreadable,
        row.File,
        string.Create(CultureInfo.InvariantCulture, $"{FrameTable.FileName}, line {row.Line}: there is no file {row.File} in the frame set."),
        "Correct the name, put the file back, or remove the row.");

    /// <summary>What is off with names in the folder: tables that are not read, roles in another spelling, words that are nearly a role.</summary>
    /// <param name="files">All files, as paths inside the set.</param>
    /// <param name="rawFiles">The raw files among them.</param>
    public static IEnumerable<Finding> OfNames(IReadOnlyList<string> files, IReadOnlyList<string> rawFiles)
    {
        foreach (string table in files.Where(f => f.EndsWith("/" + FrameTable.FileName, StringComparison.OrdinalIgnoreCase)))
        {
            yield return Create(
                FindingCode.TableMisplaced,
                table,
                $"{table} is not read: only a {FrameTable.FileName} at the top of the frame set counts.",
                $"Move it to the top, and name files from there, as {table[..^FrameTable.FileName.Length]}P0012.dng.");
        }

        string[] folders = [.. rawFiles.SelectMany(f => f.Split('/')[..^1]).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        string[] respelt = [.. folders.Where(f => RoleWord.Read(f) is { } role && f != RoleWord.Of(role))];
        if (respelt.Length > 0)
        {
            yield return Create(
                FindingCode.FolderNamed,
                null,
                $"Taken as roles: {string.Join(", ", respelt.Select(f => $"{f} as {RoleWord.Of(RoleWord.Read(f)!.Value)}"))}.",
                "Nothing to do, if that is what they are.",
                FindingSeverity.Note);
        }

        foreach (string folder in folders.Where(f => RoleWord.Read(f) is null))
        {
            if (NearestWord.Of(folder, RoleWord.Proper) is { } meant)
            {
                yield return Create(
                    FindingCode.FolderNamed,
                    null,
                    $"The folder {folder} is no role. Did you mean {meant}?",
                    $"Call it {meant} if it holds such frames; else give it a name that is less like one.");
            }
        }
    }

    private static Finding Create(string code, string? file, string message, string remedy, FindingSeverity severity = FindingSeverity.Warning) => new()
    {
        Code = code,
        Severity = severity,
        Frames = file is null ? [] : [file],
        Message = message,
        Remedy = remedy,
    };

    private static string Sentence(string text) => text.EndsWith('.') ? text : text + ".";
}
