using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>How findings from metadata are written: one shape, names sorted, sizes counted in frames.</summary>
internal static class SetFindings
{
    public static Finding Warning(string code, IEnumerable<SetFrame> frames, string message, string remedy, int? iso = null) =>
        Create(code, FindingSeverity.Warning, frames, message, remedy, iso);

    public static Finding Refusal(string code, IEnumerable<SetFrame> frames, string message, string remedy, int? iso = null) =>
        Create(code, FindingSeverity.Refusal, frames, message, remedy, iso);

    public static Finding Note(string code, IEnumerable<SetFrame> frames, string message, string remedy, int? iso = null) =>
        Create(code, FindingSeverity.Note, frames, message, remedy, iso);

    public static Finding FramesNone(int seen) => new()
    {
        Code = FindingCode.FramesNone,
        Severity = FindingSeverity.Refusal,
        Size = 0,
        SizeUnit = "count",
        Message = seen == 0
            ? "There is no raw file in this folder or below it."
            : string.Create(CultureInfo.InvariantCulture, $"None of the {seen} raw files can be used; the other findings say why."),
        Remedy = "Put the raw files into subfolders called dark, metered and bracket, or list them in frames.csv.",
    };

    /// <summary>"1 frame", "3 frames".</summary>
    public static string Count(int number, string noun = "frame") =>
        string.Create(CultureInfo.InvariantCulture, $"{number} {noun}{(number == 1 ? string.Empty : "s")}");

    private static Finding Create(string code, FindingSeverity severity, IEnumerable<SetFrame> frames, string message, string remedy, int? iso)
    {
        string[] files = [.. frames.Select(f => f.File).Order(StringComparer.Ordinal)];
        return new Finding
        {
            Code = code,
            Severity = severity,
            Iso = iso,
            Frames = files,
            Size = files.Length > 0 ? files.Length : null,
            SizeUnit = files.Length > 0 ? "count" : null,
            Message = message,
            Remedy = remedy,
        };
    }
}
