namespace SensorLab.Planning.Plans;

/// <summary>A setting that was shot more often than planned.</summary>
/// <param name="Role">What its frames serve for.</param>
/// <param name="Iso">The ISO.</param>
/// <param name="Shutter">The exposure time as the dial says it.</param>
/// <param name="LightStep">The light step; null for none.</param>
/// <param name="Frames">Frames beyond the plan's.</param>
public sealed record PlanExcess(string Role, int Iso, string Shutter, string? LightStep, int Frames);
