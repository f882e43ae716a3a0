namespace SensorLab.Profiles;

/// <summary>One frame of the set and what became of it.</summary>
public sealed record FrameRecord
{
    /// <summary>Path inside the frame set with forward slashes.</summary>
    public required string File { get; init; }

    /// <summary>SHA-256 of the file, lower-case hexadecimal; null where the file could not be read.</summary>
    public string? Sha256 { get; init; }

    /// <summary>"dark", "metered", "bracket" or "light"; null where it has none.</summary>
    public string? Role { get; init; }

    /// <summary>ISO setting; null where unknown.</summary>
    public int? Iso { get; init; }

    /// <summary>Exposure time in seconds; null where unknown.</summary>
    public double? ExposureSeconds { get; init; }

    /// <summary>Whether any figure rests on it.</summary>
    public required bool Used { get; init; }
}
