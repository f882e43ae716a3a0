namespace SensorLab.Intakes;

/// <summary>What a frame set holds at one ISO.</summary>
public sealed record IntakeIso
{
    /// <summary>The ISO setting.</summary>
    public required int Iso { get; init; }

    /// <summary>The roles that have frames: dark, metered, bracket, light.</summary>
    public required IReadOnlyList<IntakeRole> Roles { get; init; }

    /// <summary>The darkest and the brightest bracket level in EV from the metered frames' mean, by green; null where no light was measured.</summary>
    public double? DarkestEv { get; init; }

    /// <inheritdoc cref="DarkestEv"/>
    public double? BrightestEv { get; init; }

    /// <summary>Bracket levels in which some channel clips in part or no longer answers to more light; null where no light was measured.</summary>
    public int? ClippingLevels { get; init; }

    /// <summary>What is missing, in a photographer's words; empty where nothing is.</summary>
    public IReadOnlyList<string> Missing { get; init => field = value ?? []; } = [];

    /// <summary>Whether figures can be had at this ISO.</summary>
    public required bool CanBeCharacterised { get; init; }
}
