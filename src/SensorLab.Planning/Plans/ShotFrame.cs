namespace SensorLab.Planning.Plans;

/// <summary>A frame as it was shot, for comparison with a plan.</summary>
/// <param name="File">Its path in the frame set.</param>
/// <param name="Role">What it serves for; null where nothing says.</param>
/// <param name="Iso">The ISO; null where unknown.</param>
/// <param name="ExposureSeconds">The exposure time in seconds; null where unknown.</param>
/// <param name="LightStep">Its light step.</param>
/// <param name="Light">Its light's name, for role light.</param>
public sealed record ShotFrame(string File, string? Role, int? Iso, double? ExposureSeconds, string? LightStep, string? Light);
