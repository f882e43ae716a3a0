using SensorLab.Profiles;

namespace SensorLab.Shelf;

/// <summary>What may come onto the shelf, read when its turn comes.</summary>
/// <param name="Name">What the user calls it.</param>
/// <param name="Read">
/// Reads it, from any thread. It may throw <see cref="ProfileFormatException"/>, <see cref="IOException"/> or
/// <see cref="UnauthorizedAccessException"/>: the candidate is refused then, and the others are not.
/// </param>
public sealed record ShelfCandidate(string Name, Func<CancellationToken, ShelfDocument> Read);
