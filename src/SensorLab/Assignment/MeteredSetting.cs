namespace SensorLab.Assignment;

/// <summary>An exposure at which the spot meter read zero on the field.</summary>
/// <param name="ExposureSeconds">Exposure time in seconds, above 0.</param>
/// <param name="Iso">The ISO.</param>
public readonly record struct MeteredSetting(double ExposureSeconds, int Iso);
