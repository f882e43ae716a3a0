namespace SensorLab.Imaging;

/// <summary>The mean 8-bit codes of a part of a picture, as stored.</summary>
/// <param name="Red">0 to 255.</param>
/// <param name="Green">0 to 255.</param>
/// <param name="Blue">0 to 255.</param>
public readonly record struct MeanCodes(double Red, double Green, double Blue)
{
    /// <summary>The highest of the three.</summary>
    public double Highest => Math.Max(Red, Math.Max(Green, Blue));
}
