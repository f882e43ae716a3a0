using SensorLab.Profiles;

namespace SensorLab.Bench;

/// <summary>The user's shelf, as far as the bench needs it.</summary>
public interface IBenchShelf
{
    /// <summary>Looks what the shelf has of a finished profile's body.</summary>
    /// <param name="profile">The finished profile.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="IOException">The shelf cannot be used.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    ShelfView Look(SensorProfile profile, CancellationToken cancellation);

    /// <summary>Puts a profile on the shelf; one that is there stays as it is.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="cancellation">Stops the work; the shelf is as it was then.</param>
    /// <exception cref="IOException">The shelf cannot be used.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    Task AddAsync(SensorProfile profile, CancellationToken cancellation);
}

/// <summary>What the shelf has of a body.</summary>
/// <param name="Holds">Whether the profile itself is on it.</param>
/// <param name="Earlier">The body's other profiles, the newest first.</param>
public sealed record ShelfView(bool Holds, IReadOnlyList<EarlierProfile> Earlier);
