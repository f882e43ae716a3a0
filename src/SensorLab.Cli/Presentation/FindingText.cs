using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Cli.Presentation;

/// <summary>Findings as a photographer reads them, one entry a flaw: what is the matter, what it does, what to do.</summary>
internal static class FindingText
{
    private const int FramesNamed = 4;

    private const string Indent = "    ";

    /// <summary>Writes findings by cause, the worst first.</summary>
    /// <param name="target">Where to.</param>
    /// <param name="findings">The findings.</param>
    /// <param name="profile">The profile that they are of; null where there is none.</param>
    public static void Write(TextWriter target, IEnumerable<Finding> findings, SensorProfile? profile = null)
    {
        foreach (string line in FindingGroup.Of(findings, profile).SelectMany(Lines))
        {
            target.WriteLine(line);
        }
    }

    /// <summary>Writes what has to be known before the figures, in five lines at most of what any terminal shows.</summary>
    /// <param name="target">Where to.</param>
    /// <param name="profile">The profile.</param>
    public static void WriteBrief(TextWriter target, SensorProfile profile)
    {
        foreach (string line in FindingGroup.Brief(FindingGroup.Of(profile.Findings, profile)))
        {
            target.WriteLine(Clipped(line));
        }
    }

    /// <summary>The lines of one entry.</summary>
    public static IEnumerable<string> Lines(FindingGroup group)
    {
        string message = group.Findings.Count > 1 && group.Findings.Any(f => f.Message != group.Worst.Message) ? "Worst: " + group.Message : group.Message;
        return
        [
            .. WrappedText.Lines(group.Heading, string.Empty, Indent),
            .. WrappedText.Lines(message, Indent, Indent),
            .. group.Effect.Length == 0 ? [] : WrappedText.Lines(group.Effect, Indent, Indent),
            .. WrappedText.Lines("Remedy: " + group.Remedy, Indent, Indent),
            .. FramesOf(group).SelectMany(frames => WrappedText.Lines(frames, Indent, Indent)),
        ];
    }

    private static IEnumerable<string> FramesOf(FindingGroup group)
    {
        IReadOnlyList<string> frames = group.Frames;
        int more = frames.Count - FramesNamed;

        // A file that its message names need not be named twice.
        bool isNamed = frames.Count == 1 && group.Message.Contains(frames[0], StringComparison.Ordinal);
        if (frames.Count > 0 && !isNamed)
        {
            string rest = more > 0 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $" and {more} more") : string.Empty;
            yield return $"Frames: {string.Join(", ", frames.Take(FramesNamed))}{rest}";
        }
    }

    private static string Clipped(string line) => line.Length <= WrappedText.Width ? line : line[..(WrappedText.Width - 1)] + "…";
}
