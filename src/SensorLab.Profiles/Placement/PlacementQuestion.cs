namespace SensorLab.Profiles.Placement;

/// <summary>What a photographer asks of a sensor profile on location.</summary>
public sealed record PlacementQuestion
{
    /// <summary>The ISO in use.</summary>
    public required int Iso { get; init; }

    /// <summary>The tone's spot reading, in EV from middle grey.</summary>
    public required double ToneEv { get; init; }

    /// <summary>The ends of the scene; null where none was given.</summary>
    public SceneRange? Scene { get; init; }

    /// <summary>A light of the profile; null for the one under which the set was shot.</summary>
    public string? Light { get; init; }

    /// <summary>The guard below saturation in EV, 0 or more.</summary>
    public double GuardEv { get; init; } = EvAxis.DefaultGuardEv;
}
