using SensorLab.Planning.Protocols;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>What a shot list is planned for.</summary>
public sealed record PlanRequest
{
    /// <summary>The protocol.</summary>
    public required Protocol Protocol { get; init; }

    /// <summary>The ISOs; empty for the protocol's.</summary>
    public IReadOnlyList<int> Isos { get; init; } = [];

    /// <summary>The body's exposure times.</summary>
    public ShutterRange Shutter { get; init; } = ShutterRange.Common;

    /// <summary>Where the meter reads zero as the light stands; null where that is not known.</summary>
    public MeteredExposure? Metered { get; init; }

    /// <summary>The mains that the lamps run on; null for daylight, a battery or direct current.</summary>
    public MainsLight? Mains { get; init; }

    /// <summary>An earlier profile of the body; null for typical figures.</summary>
    public SensorProfile? From { get; init; }
}
