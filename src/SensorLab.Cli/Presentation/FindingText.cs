using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>Findings as a photographer reads them: what is the matter, and what to do.</summary>
internal static class FindingText
{
    private const int FramesNamed = 4;

    private const string Indent = "    ";

    /// <summary>Writes findings, in their order.</summary>
    public static void Write(TextWriter target, IEnumerable<Finding> findings)
    {
        foreach (string line in findings.SelectMany(Lines))
        {
            target.WriteLine(line);
        }
    }

    /// <summary>The lines of one finding.</summary>
    public static IEnumerable<string> Lines(Finding finding)
    {
        string heading = $"{SeverityOf(finding)}: {finding.Code}{PlaceOf(finding)}";
        return
        [
            OneLine(heading),
            .. WrappedText.Lines(OneLine(finding.Message), Indent, Indent),
            .. WrappedText.Lines("Remedy: " + OneLine(finding.Remedy), Indent, Indent),
            .. FramesOf(finding).SelectMany(frames => WrappedText.Lines(OneLine(frames), Indent, Indent)),
        ];
    }

    private static string SeverityOf(Finding finding) => finding.Severity switch
    {
        FindingSeverity.Refusal => "refused",
        FindingSeverity.Warning => "warning",
        _ => "note",
    };

    private static string PlaceOf(Finding finding)
    {
        string iso = finding.Iso is { } setting ? string.Create(CultureInfo.InvariantCulture, $", ISO {setting}") : string.Empty;
        return finding.Channel is { } channel ? $"{iso}, channel {channel}" : iso;
    }

    private static IEnumerable<string> FramesOf(Finding finding)
    {
        int more = finding.Frames.Count - FramesNamed;

        // A file that its message names need not be named twice.
        bool isNamed = finding.Frames.Count == 1 && finding.Message.Contains(finding.Frames[0], StringComparison.Ordinal);
        if (finding.Frames.Count > 0 && !isNamed)
        {
            string rest = more > 0 ? string.Create(CultureInfo.InvariantCulture, $" and {more} more") : string.Empty;
            yield return $"Frames: {string.Join(", ", finding.Frames.Take(FramesNamed))}{rest}";
        }
    }

    // File names and metadata may hold anything: control characters must not steer the terminal.
    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));
}
