namespace SensorLab.Measurement.Sets;

/// <summary>Frames of one ISO that were shot in one light.</summary>
/// <param name="LightEv">log2 of the light: signal per second.</param>
/// <param name="Readings">The frames that tell it, in the order in which they were taken.</param>
public sealed record LightGroup(double LightEv, IReadOnlyList<LightReading> Readings);
