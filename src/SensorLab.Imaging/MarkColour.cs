namespace SensorLab.Imaging;

/// <summary>A colour of 8-bit sRGB codes.</summary>
internal readonly record struct MarkColour(byte Red, byte Green, byte Blue);
