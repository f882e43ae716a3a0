namespace SensorLab.Planning.Plans;

/// <summary>The exposure at which the spot meter reads zero on the field, as the light stands.</summary>
/// <param name="Time">The exposure time.</param>
/// <param name="Iso">The ISO.</param>
public readonly record struct MeteredExposure(ShutterTime Time, int Iso);
