namespace SensorLab.RawFiles.Tiff;

/// <summary>Values of the tag Compression (TIFF 6.0; DNG 1.7, chapter 4).</summary>
internal static class TiffCompression
{
    public const uint None = 1;
    public const uint Jpeg = 7;
    public const uint Deflate = 8;
    public const uint LossyJpeg = 34892;
    public const uint JpegXl = 52546;
}
