using SensorLab.Profiles;

namespace SensorLab.Reports.Shelves;

/// <summary>A figure at one ISO over profiles.</summary>
/// <param name="Label">What tells it from the other lines, as <c>ISO 800</c>.</param>
/// <param name="Marks">The figure of each profile: by time, or bodies by value.</param>
/// <param name="Expected">What is expected of a body that nobody measured; null where nothing is said of one.</param>
public sealed record CourseLine(string Label, IReadOnlyList<CourseMark> Marks, Figure? Expected = null);
