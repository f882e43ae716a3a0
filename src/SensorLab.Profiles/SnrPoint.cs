namespace SensorLab.Profiles;

/// <summary>The signal-to-noise ratio of a single pixel at one exposure.</summary>
public sealed record SnrPoint
{
    /// <summary>EV relative to middle grey.</summary>
    public required double Ev { get; init; }

    /// <summary>SNR with temporal noise and fixed pattern.</summary>
    public Figure? SnrTotal { get; init; }

    /// <summary>SNR with temporal noise alone.</summary>
    public Figure? SnrTemporal { get; init; }
}
