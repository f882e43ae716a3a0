using SensorLab.Profiles;
using SensorLab.Retest;

namespace SensorLab.Shelf.History;

/// <summary>A figure as one profile of a body holds it.</summary>
/// <param name="Profile">The profile.</param>
/// <param name="Figure">The figure.</param>
/// <param name="Step">How it compares with the point before; null for the first, and where the profiles cannot be compared.</param>
/// <param name="NotCompared">Why there is no comparison with the point before; null for the first, and where there is one.</param>
public sealed record CoursePoint(ShelvedProfile Profile, Figure Figure, ComparedFigure? Step, string? NotCompared);
