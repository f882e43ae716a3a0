using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation;

/// <summary>What happens to a sensor between opening and closing the shutter, and which draw of it this is.</summary>
public sealed record Exposure
{
    /// <summary>The ISO setting in force.</summary>
    public required VirtualIso Setting { get; init; }

    /// <summary>Electrons expected in a photosite of sensitivity 1 and response 1 where the field's factor is 1; 0 for a dark frame.</summary>
    public required double LightElectron { get; init; }

    /// <summary>Exposure time in seconds, as it was and not as engraved; dark current flows that long.</summary>
    public required double ExposureSeconds { get; init; }

    /// <summary>The seed of the draw.</summary>
    public required ulong Seed { get; init; }

    /// <summary>The frame's number in the draw: another number, other noise.</summary>
    public required ulong FrameNumber { get; init; }

    /// <summary>The light's distribution.</summary>
    public FieldShape Field { get; init; }

    /// <summary>Relative light of each row of the active area; null where the light is steady.</summary>
    public IReadOnlyList<double>? RowLight { get; init; }

    /// <summary>Relative light of each photosite of the active area (rows × columns), for what the field shows; null where it shows nothing.</summary>
    public float[]? Texture { get; init; }

    /// <summary>Black level of this frame less the body's, in DN.</summary>
    public double BlackShiftDn { get; init; }

    /// <summary>How much of each channel's light this lamp sends, against the lamp that sensitivities are stated under; null for that lamp.</summary>
    public ChannelSensitivity? LampColour { get; init; }

    /// <summary>What the body does to the codes, in order.</summary>
    public IReadOnlyList<ReadoutEffect> Effects { get; init; } = [];
}
