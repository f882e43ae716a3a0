using SensorLab.Frames;

namespace SensorLab;

/// <summary>One row of <c>frames.csv</c>; null where the row says nothing and the frame's own word stands.</summary>
internal sealed record FrameRow
{
    public required int Line { get; init; }

    /// <summary>Path inside the frame set with forward slashes.</summary>
    public required string File { get; init; }

    public FrameRole? Role { get; init; }

    /// <summary>Whether the row says that the frame does not belong to the set: role none.</summary>
    public bool IsSetAside { get; init; }

    public int? Iso { get; init; }

    public double? ExposureSeconds { get; init; }

    public double? ApertureFNumber { get; init; }

    public string? LightStep { get; init; }

    public string? Light { get; init; }

    public string? Look { get; init; }

    public string? Mode { get; init; }

    public string? Lens { get; init; }

    public double? TemperatureCelsius { get; init; }

    public string? Note { get; init; }

    /// <summary>The frame's metadata with what the row says put over them.</summary>
    public FrameMetadata Override(FrameMetadata metadata) => metadata with
    {
        Iso = Iso ?? metadata.Iso,
        ExposureSeconds = ExposureSeconds ?? metadata.ExposureSeconds,
        ApertureFNumber = ApertureFNumber ?? metadata.ApertureFNumber,
        Look = Look ?? metadata.Look,
        Lens = Lens ?? metadata.Lens,
        TemperatureCelsius = TemperatureCelsius ?? metadata.TemperatureCelsius,
        Mode = metadata.Mode with { Name = Mode ?? metadata.Mode.Name },
    };
}
