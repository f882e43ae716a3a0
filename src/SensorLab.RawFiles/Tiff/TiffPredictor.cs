namespace SensorLab.RawFiles.Tiff;

/// <summary>Values of the tag Predictor (TIFF 6.0, section 14; DNG 1.4 for the wider distances).</summary>
internal static class TiffPredictor
{
    public const uint None = 1;
    public const uint Horizontal = 2;
    public const uint FloatingPoint = 3;
    public const uint HorizontalByTwo = 34892;
    public const uint HorizontalByFour = 34893;
}
