using SensorLab.Retest;

namespace SensorLab.Shelf.History;

/// <summary>The course of a figure over a body's profiles of one recording mode.</summary>
/// <param name="Address">The figure.</param>
/// <param name="Mode">The recording mode, on one line; empty where the frames do not say.</param>
/// <param name="Points">By time: one a profile that holds the figure.</param>
public sealed record FigureCourse(FigureAddress Address, string Mode, IReadOnlyList<CoursePoint> Points);
