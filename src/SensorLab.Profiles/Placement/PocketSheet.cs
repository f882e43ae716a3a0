namespace SensorLab.Profiles.Placement;

/// <summary>What goes on location, from profiles alone: the bodies of a team with the few figures that a placement needs.</summary>
/// <remarks>Figures that place a tone include the meter, as those of <see cref="EvAxis"/> do. Hostile text is carried as it is: whoever shows it, escapes it.</remarks>
public sealed record PocketSheet
{
    /// <summary>The guard below saturation in EV.</summary>
    public required double GuardEv { get; init; }

    /// <summary>The bodies; the first one is the body in hand.</summary>
    public required IReadOnlyList<PocketBody> Bodies { get; init; }

    /// <summary>Makes a sheet.</summary>
    /// <param name="profiles">One profile a body; the first one is of the body in hand.</param>
    /// <exception cref="ArgumentException">There is no profile.</exception>
    public static PocketSheet Of(IReadOnlyList<SensorProfile> profiles) => profiles.Count == 0
        ? throw new ArgumentException("A pocket sheet needs a profile.", nameof(profiles))
        : new PocketSheet { GuardEv = EvAxis.DefaultGuardEv, Bodies = [.. profiles.Select((profile, i) => PocketBody.Of(profile, i == 0 ? null : profiles[0]))] };
}
