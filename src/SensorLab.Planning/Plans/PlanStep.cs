namespace SensorLab.Planning.Plans;

/// <summary>Frames of one setting, shot one after the other.</summary>
public sealed record PlanStep
{
    /// <summary>Its place in the shooting order, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>What the frames serve for: dark, metered, bracket, light. The folder they go to.</summary>
    public required string Role { get; init; }

    /// <summary>The ISO.</summary>
    public required int Iso { get; init; }

    /// <summary>The exposure time as the dial says it.</summary>
    public required string Shutter { get; init; }

    /// <summary>The same in seconds.</summary>
    public required double ExposureSeconds { get; init; }

    /// <summary>How many frames.</summary>
    public required int Frames { get; init; }

    /// <summary>Where they lie, in EV from middle grey; null without light.</summary>
    public double? Ev { get; init; }

    /// <summary>What goes into the column <c>lightStep</c> of frames.csv; null for nothing.</summary>
    public string? LightStep { get; init; }

    /// <summary>Stops of light against the light at the start: 0 or below; null without light, or under another lamp.</summary>
    public double? LightStops { get; init; }

    /// <summary>The light's name, for role light.</summary>
    public string? Light { get; init; }

    /// <summary>The look; null where looks don't matter.</summary>
    public string? Look { get; init; }

    /// <summary>How far a lamp on the mains may move these frames' light, in percent; null without mains or light.</summary>
    public double? RipplePercent { get; init; }

    /// <summary>Whether of several readings the later one counts, and the earlier ones are set aside; null where all frames serve.</summary>
    public bool? LaterCounts { get; init; }

    /// <summary>What the dials have to be turned to first, as in "ISO 200, shutter 1/60"; null where they stay.</summary>
    public string? Dials { get; init; }

    /// <summary>What else to do before the first of these frames, in order.</summary>
    public required IReadOnlyList<string> Actions { get; init; }
}
