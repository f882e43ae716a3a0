namespace SensorLab.Profiles;

/// <summary>Something the user must know, with a remedy.</summary>
public sealed record Finding
{
    /// <summary>One of <see cref="FindingCode"/>.</summary>
    public required string Code { get; init; }

    /// <summary>How much it weighs.</summary>
    public required FindingSeverity Severity { get; init; }

    /// <summary>The ISO it concerns; null for the whole set.</summary>
    public int? Iso { get; init; }

    /// <summary>The channel it concerns; null for all.</summary>
    public string? Channel { get; init; }

    /// <summary>The frames it concerns, as paths inside the frame set with forward slashes.</summary>
    public IReadOnlyList<string> Frames { get; init => field = value ?? []; } = [];

    /// <summary>How large the flaw is, in <see cref="SizeUnit"/>; null for a flaw without a size.</summary>
    public double? Size { get; init; }

    /// <summary>"relative", "ev", "dn", "electron" or "count"; null for a flaw without a size.</summary>
    public string? SizeUnit { get; init; }

    /// <summary>What is the matter, in a photographer's words, whether it was compensated included.</summary>
    public required string Message { get; init; }

    /// <summary>What to do about it.</summary>
    public required string Remedy { get; init; }
}
