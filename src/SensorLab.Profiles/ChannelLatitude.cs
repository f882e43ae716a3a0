namespace SensorLab.Profiles;

/// <summary>The latitude of one channel.</summary>
public sealed record ChannelLatitude
{
    /// <summary>EV from middle grey to saturation.</summary>
    public Figure? AboveEv { get; init; }

    /// <summary>EV from middle grey to where the first 0.1 % of pixels clip.</summary>
    public Figure? FirstClipEv { get; init; }

    /// <summary>The shadow end at each criterion, the highest SNR first.</summary>
    public IReadOnlyList<ShadowEnd> BelowEv { get; init => field = value ?? []; } = [];
}
