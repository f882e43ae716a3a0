namespace SensorLab.Assignment;

/// <summary>What only the user knows.</summary>
/// <param name="Files">The frames that hang on it.</param>
/// <param name="Question">The question, with how to answer it.</param>
public sealed record AssignmentQuestion(IReadOnlyList<string> Files, string Question);
