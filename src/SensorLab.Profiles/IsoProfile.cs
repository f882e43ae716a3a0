namespace SensorLab.Profiles;

/// <summary>What was measured at one ISO.</summary>
public sealed record IsoProfile
{
    /// <summary>The ISO setting.</summary>
    public required int Iso { get; init; }

    /// <summary>Independent meter readings at this ISO.</summary>
    public int? MeterReadings { get; init; }

    /// <summary>The meter's part of the uncertainty of middle grey at this ISO, in EV.</summary>
    public double? MeterStandardUncertaintyEv { get; init; }

    /// <summary>The figures of each channel.</summary>
    public required IReadOnlyList<ChannelProfile> Channels { get; init; }

    /// <summary>The latitude of the ISO: the first channel's bright end, the pooled greens' shadow end.</summary>
    public required IsoLatitude Latitude { get; init; }

    /// <summary>SNR against EV of one pixel of the two greens pooled (Y in monochrome), in rising EV.</summary>
    public IReadOnlyList<SnrPoint> SnrCurve { get; init => field = value ?? []; } = [];

    /// <summary>The statistics of every level, dark and metered ones included: enough to fit again without the frames.</summary>
    public IReadOnlyList<LevelRecord> Levels { get; init => field = value ?? []; } = [];

    /// <summary>The camera's previews, the most truthful look first.</summary>
    public IReadOnlyList<PreviewProfile> Previews { get; init => field = value ?? []; } = [];
}
