namespace SensorLab.Shelf;

/// <summary>What came of one candidate.</summary>
/// <param name="Name">What the user calls it.</param>
/// <param name="Key">The profile's key; null where it was refused.</param>
/// <param name="Body">The body; null where it was refused.</param>
/// <param name="IsNew">Whether the shelf did not hold it before.</param>
/// <param name="Fault">Why it was refused; null where it is on the shelf.</param>
public sealed record TakenIn(string Name, string? Key, ShelfBody? Body, bool IsNew, Exception? Fault);
