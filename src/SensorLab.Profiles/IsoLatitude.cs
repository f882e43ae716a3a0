namespace SensorLab.Profiles;

/// <summary>The latitude of an ISO.</summary>
public sealed record IsoLatitude
{
    /// <summary>EV from middle grey to where the first channel saturates.</summary>
    public Figure? AboveEv { get; init; }

    /// <summary>EV from middle grey to where the first 0.1 % of the first channel's pixels clip.</summary>
    public Figure? FirstClipEv { get; init; }

    /// <summary>The channel that saturates first.</summary>
    public string? LimitingChannel { get; init; }

    /// <summary>The channel that reaches the criterion first.</summary>
    public string? LimitingChannelBelow { get; init; }

    /// <summary>EV below middle grey where bands show before the SNR falls to the criterion.</summary>
    public Figure? BandsEndEv { get; init; }

    /// <summary>The shadow end at each criterion for the two greens pooled, the highest SNR first.</summary>
    public IReadOnlyList<ShadowEnd> BelowEv { get; init => field = value ?? []; } = [];
}
