namespace SensorLab.Cli.Commands;

/// <summary>What came of one frame set of many.</summary>
/// <param name="Set">Its folder.</param>
/// <param name="Word">What was done.</param>
/// <param name="Body">The body that it is of; null where it was not measured.</param>
/// <param name="Reasons">Why it failed; none where it did not.</param>
/// <param name="Status">The exit status that it would have had alone.</param>
internal sealed record MeasuredOutcome(string Set, string Word, string? Body, IReadOnlyList<string> Reasons, int Status);
