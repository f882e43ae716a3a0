namespace SensorLab.RawFiles.Tiff;

/// <summary>Values of the tag PhotometricInterpretation that raw images have (TIFF/EP; DNG 1.7, chapter 4).</summary>
internal static class TiffPhotometric
{
    public const uint ColourFilterArray = 32803;
    public const uint LinearRaw = 34892;
}
