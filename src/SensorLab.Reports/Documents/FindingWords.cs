using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Reports.Documents;

/// <summary>A finding's place and frames in words.</summary>
internal static class FindingWords
{
    /// <summary>Code, ISO and channel.</summary>
    /// <param name="finding">The finding.</param>
    public static string Place(Finding finding)
    {
        string iso = finding.Iso is { } setting ? string.Create(CultureInfo.InvariantCulture, $", ISO {setting}") : string.Empty;
        string channel = ForeignText.OneLine(finding.Channel) is { Length: > 0 } name ? $", channel {name}" : string.Empty;
        return $"{ForeignText.OneLine(finding.Code)}{iso}{channel}";
    }

    /// <summary>The frames that it names.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="most">How many are named before the rest is counted.</param>
    /// <returns>Empty where it names none.</returns>
    public static string Frames(Finding finding, int most)
    {
        string names = string.Join(", ", finding.Frames.Take(most).Select(ForeignText.OneLine));
        int more = finding.Frames.Count - most;
        return names.Length == 0 ? string.Empty : $"Frames: {names}{(more > 0 ? string.Create(CultureInfo.InvariantCulture, $" and {more} more") : string.Empty)}";
    }
}
