namespace SensorLab.FlawMatrix;

/// <summary>A part of the study as Markdown, and whether its goal was met.</summary>
internal sealed record StudyReport(string Text, bool IsMet);
