using SensorLab.Frames;

namespace SensorLab.Sets;

/// <summary>What the frames of a level share.</summary>
/// <param name="Iso">ISO setting.</param>
/// <param name="Role">What the level serves for.</param>
/// <param name="ExposureSeconds">Exposure time of its first frame, in seconds.</param>
/// <param name="ApertureFNumber">Aperture as f-number; null where unknown or without contacts.</param>
/// <param name="LightStep">Lamp or filter moved on purpose.</param>
/// <param name="Light">The light's name, for role light.</param>
public sealed record LevelKey(
    int Iso,
    FrameRole Role,
    double ExposureSeconds,
    double? ApertureFNumber,
    string? LightStep,
    string? Light);
