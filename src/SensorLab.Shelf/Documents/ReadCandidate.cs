namespace SensorLab.Shelf.Documents;

/// <summary>A candidate that was read.</summary>
/// <param name="Name">What the user calls it.</param>
/// <param name="Document">Its document; null where it has none.</param>
/// <param name="Fault">Why it has none.</param>
internal sealed record ReadCandidate(string Name, ShelfDocument? Document, Exception? Fault);
