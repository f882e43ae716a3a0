namespace SensorLab.Fuzzing.Commands;

/// <summary>How a command ended on what it was fed.</summary>
/// <param name="Command">The command's words.</param>
/// <param name="Status">Its exit status.</param>
/// <param name="Seconds">How long it took.</param>
/// <param name="PeakBytes">The most memory that the process held meanwhile.</param>
/// <param name="Fault">What it owed and did not do; null where nothing.</param>
internal sealed record CommandOutcome(string Command, int Status, double Seconds, long PeakBytes, string? Fault);
