namespace SensorLab.Reports.Charts;

/// <summary>One ISO on the latitude ruler.</summary>
internal sealed record LatitudeRow
{
    /// <summary>The ISO setting.</summary>
    public required int Iso { get; init; }

    /// <summary>Where the first channel saturates; null where not measured.</summary>
    public EvMark? BrightEnd { get; init; }

    /// <summary>The channel that saturates first; null where unknown.</summary>
    public string? LimitingChannel { get; init; }

    /// <summary>Where the first 0.1 % of pixels clip; null where not measured.</summary>
    public EvMark? FirstClip { get; init; }

    /// <summary>Where the most truthful look's preview clips; null without a preview.</summary>
    public EvMark? PreviewClip { get; init; }

    /// <summary>The look of <see cref="PreviewClip"/>.</summary>
    public string? PreviewLook { get; init; }

    /// <summary>The shadow ends, the highest SNR first.</summary>
    public required IReadOnlyList<ShadowMark> ShadowEnds { get; init; }

    /// <summary>The meter's own standard uncertainty in EV, which moves all marks of the row together; null where no meter was used, or where the marks' intervals have it.</summary>
    public double? MeterStandardUncertaintyEv { get; init; }

    /// <summary>The shadow end at SNR 10; null where not measured.</summary>
    public EvMark? ShadowEnd => ShadowEnds.FirstOrDefault(end => end.IsDefault).Mark;

    /// <summary>Every mark of the row.</summary>
    public IEnumerable<EvMark> Marks => ShadowEnds.Select(end => end.Mark)
        .Concat([BrightEnd, FirstClip, PreviewClip])
        .OfType<EvMark>();
}
