namespace SensorLab.Fuzzing.Documents;

/// <summary>How a command ended on a document.</summary>
/// <param name="Command">The command's words.</param>
/// <param name="Status">Its exit status.</param>
/// <param name="Seconds">How long it took.</param>
/// <param name="AllocatedBytes">What it allocated in all, garbage included.</param>
/// <param name="Fault">What it owed and did not do; null where nothing.</param>
internal sealed record CommandOutcome(string Command, int Status, double Seconds, long AllocatedBytes, string? Fault);
