namespace SensorLab.Fuzzing.Targets;

/// <summary>How a reader ended on a file.</summary>
/// <param name="Error">The named error's message; null where the file decodes.</param>
/// <param name="PixelHash">A hash of what was decoded; 0 after an error.</param>
internal readonly record struct FuzzOutcome(string? Error, ulong PixelHash);
