using System.Globalization;

namespace SensorLab.Reports.Documents;

/// <summary>What an entry of the findings says beside its heading.</summary>
internal static class FindingWords
{
    /// <summary>What was found; where it is worst, if the findings differ.</summary>
    /// <param name="group">The entry.</param>
    public static string Message(FindingGroup group) => group.Findings.Any(f => f.Message != group.Worst.Message) ? "Worst: " + group.Message : group.Message;

    /// <summary>An entry of what was compensated, or only noted, in one line.</summary>
    /// <param name="group">The entry.</param>
    public static string Short(FindingGroup group) => $"{group.Heading}: {group.What}.";

    /// <summary>The frames that it names.</summary>
    /// <param name="group">The entry.</param>
    /// <param name="most">How many are named before the rest is counted.</param>
    /// <returns>Empty where it names none.</returns>
    public static string Frames(FindingGroup group, int most)
    {
        IReadOnlyList<string> all = group.Frames;
        int more = all.Count - most;
        return all.Count == 0 ? string.Empty : $"Frames: {string.Join(", ", all.Take(most))}{(more > 0 ? string.Create(CultureInfo.InvariantCulture, $" and {more} more") : string.Empty)}";
    }
}
