namespace SensorLab.Profiles;

/// <summary>Noise as DNG's tag NoiseProfile states it: σ = √(scale·x + offset), x normalised by the declared levels.</summary>
/// <param name="Scale">Signal-dependent part S.</param>
/// <param name="Offset">Signal-independent part O.</param>
/// <remarks>DNG 1.7, tag NoiseProfile. The levels that the file declares normalise it, since converters apply those.</remarks>
public sealed record DngNoiseProfile(double Scale, double Offset);
