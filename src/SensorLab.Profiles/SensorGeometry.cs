namespace SensorLab.Profiles;

/// <summary>The active area of a sensor.</summary>
/// <param name="WidthPixels">Photosite columns.</param>
/// <param name="HeightPixels">Photosite rows.</param>
/// <param name="ColourFilterArray">RGGB, BGGR, GRBG, GBRG or monochrome, from the top left.</param>
public sealed record SensorGeometry(int WidthPixels, int HeightPixels, string ColourFilterArray);
