using SensorLab.Profiles;

namespace SensorLab.Reports.Shelves;

/// <summary>A figure as one profile holds it, on a page of the shelf.</summary>
/// <param name="Time">The profile's time; null where it has none: it is in the table and not in the picture.</param>
/// <param name="Name">What tells the profile from the others, as its date and firmware, or its body's serial number.</param>
/// <param name="Firmware">The firmware; empty where it is not known.</param>
/// <param name="Figure">The figure.</param>
/// <param name="Words">What is said of it, as a verdict; empty for nothing.</param>
/// <param name="IsMarked">Whether it is marked in the picture: changed since the one before, or standing out.</param>
public sealed record CourseMark(DateTimeOffset? Time, string Name, string Firmware, Figure Figure, string Words, bool IsMarked)
{
    /// <summary>Whether nothing is decided of it: undecided, without a margin, or not compared.</summary>
    public bool IsOpen { get; init; }

    /// <summary>What tells it from the others on an axis, as a serial number; empty where a number must do.</summary>
    public string ShortName { get; init; } = string.Empty;
}
