namespace SensorLab.Profiles.Placement;

/// <summary>What the raw file holds of a tone where it is placed.</summary>
public enum ToneHold
{
    /// <summary>A bound leaves it open, or a figure is missing.</summary>
    Unknown,

    /// <summary>It clips.</summary>
    Clipped,

    /// <summary>Below the clip, but within the guard: bright texture may lose its peaks.</summary>
    InGuard,

    /// <summary>Clean: SNR 20 or more.</summary>
    Clean,

    /// <summary>Texture: SNR 10 or more.</summary>
    Texture,

    /// <summary>Tone without texture: SNR 4 or more.</summary>
    ToneOnly,

    /// <summary>Sunk in noise: below SNR 4.</summary>
    Sunk,
}
