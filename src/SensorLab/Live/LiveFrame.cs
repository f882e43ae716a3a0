namespace SensorLab.Live;

/// <summary>A frame of a folder that fills, with what it was taken for and what is wrong with it.</summary>
public sealed record LiveFrame
{
    /// <summary>Path inside the folder with forward slashes.</summary>
    public required string File { get; init; }

    /// <summary>What it serves for: dark, metered, bracket, light; none for a frame that is no frame of the set.</summary>
    public required string Role { get; init; }

    /// <summary>Its ISO; null where the file does not say.</summary>
    public int? Iso { get; init; }

    /// <summary>Its exposure time in seconds; null where the file does not say.</summary>
    public double? ExposureSeconds { get; init; }

    /// <summary>The exposure time as dials say it; null beyond the dial.</summary>
    public string? Shutter { get; init; }

    /// <summary>When it was taken; null where the file does not say.</summary>
    public DateTimeOffset? TakenAt { get; init; }

    /// <summary>Its light step; null for the metered light.</summary>
    public string? LightStep { get; init; }

    /// <summary>The light's name, for role light.</summary>
    public string? Light { get; init; }

    /// <summary>The plan's step that it is taken for, from 1; null without.</summary>
    public int? Step { get; init; }

    /// <summary>Whether its use is beyond doubt.</summary>
    public required bool IsSure { get; init; }

    /// <summary>What speaks for its use, in a sentence.</summary>
    public required string Why { get; init; }

    /// <summary>Green's signal as a share of what the sensor can record at this ISO, by a sample; null where it cannot be told.</summary>
    public double? SignalShare { get; init; }

    /// <summary>Its light against the light that its ISO was metered in, in EV, by a sample; null where the signal does not tell.</summary>
    public double? LightEv { get; init; }

    /// <summary>What is wrong with it; empty for a good frame.</summary>
    public IReadOnlyList<LiveFlaw> Flaws { get; init => field = value ?? []; } = [];
}
