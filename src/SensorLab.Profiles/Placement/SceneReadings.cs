namespace SensorLab.Profiles.Placement;

/// <summary>What a photographer has in hand on location: spot readings of a scene, and the exposure thought of.</summary>
/// <remarks>
/// All EV stand on one scale of light, brighter being more: <see cref="SpotReading.LightEv"/> of settings as dialled, or
/// stops from what the meter reads as zero at the exposure now set, which is then 0 on that scale.
/// </remarks>
public sealed record SceneReadings
{
    /// <summary>The ISO to shoot at.</summary>
    public required int Iso { get; init; }

    /// <summary>A light of the profile; null for the one under which the set was shot.</summary>
    public string? Light { get; init; }

    /// <summary>The bright end: the brightest surface that must hold texture.</summary>
    public required double BrightEv { get; init; }

    /// <summary>The dark end: the darkest surface that must hold texture, no brighter than the bright end; null where none was read.</summary>
    public double? DarkEv { get; init; }

    /// <summary>Further tones.</summary>
    public IReadOnlyList<double> ToneEvs { get; init; } = [];

    /// <summary>The exposure to look at, as the light that it puts at middle grey; null for the advised one.</summary>
    public double? ExposureEv { get; init; }

    /// <summary>An exposure that can be set; the others lie in thirds of a stop from it.</summary>
    public double ExposureOriginEv { get; init; }

    /// <summary>The guard below saturation in EV, 0 or more.</summary>
    public double GuardEv { get; init; } = EvAxis.DefaultGuardEv;
}
