namespace SensorLab.Retest;

/// <summary>Where in a sensor profile a figure stands.</summary>
/// <param name="Iso">The ISO setting.</param>
/// <param name="Channel">R, G1, G2, B or Y; null for a figure of the whole ISO.</param>
/// <param name="Name">Its name, as <c>readNoiseElectron</c> or <c>belowEv.snr10.perPixel</c>.</param>
public readonly record struct FigureAddress(int Iso, string? Channel, string Name);
