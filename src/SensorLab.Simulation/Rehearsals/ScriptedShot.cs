using SensorLab.Frames;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>Frames of one setting of a shot list that is rehearsed.</summary>
public sealed record ScriptedShot
{
    /// <summary>What the frames serve for.</summary>
    public required FrameRole Role { get; init; }

    /// <summary>The ISO setting.</summary>
    public required int Iso { get; init; }

    /// <summary>Exposure time in seconds as the dial says it, above 0; exposed is the power of two of whole thirds next to it.</summary>
    public required double ExposureSeconds { get; init; }

    /// <summary>How many frames, 1 or more.</summary>
    public required int Frames { get; init; }

    /// <summary>
    /// For metered frames and other lights: where the light is to be trimmed to, in EV from middle grey. Above 0 the light is
    /// trimmed anew; else it stays as it is.
    /// </summary>
    public double TrimEv { get; init; }

    /// <summary>The filter before the lens in stops; 0 for none.</summary>
    public double FilterStops { get; init; }

    /// <summary>The light step's name, for frames.csv; null for none.</summary>
    public string? LightStep { get; init; }

    /// <summary>The light's name, for role light.</summary>
    public string? Light { get; init; }

    /// <summary>The look; null where looks don't matter.</summary>
    public string? Look { get; init; }

    /// <summary>Seconds that pass before the first of these frames: hands need time.</summary>
    public double PauseSeconds { get; init; }
}
