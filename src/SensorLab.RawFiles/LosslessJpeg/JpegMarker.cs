namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>Marker codes, the byte behind 0xFF (ITU-T T.81, table B.1).</summary>
internal static class JpegMarker
{
    public const byte Prefix = 0xFF;
    public const byte BaselineFrame = 0xC0;
    public const byte ExtendedFrame = 0xC1;
    public const byte ProgressiveFrame = 0xC2;
    public const byte LosslessHuffmanFrame = 0xC3;
    public const byte HuffmanTables = 0xC4;
    public const byte ArithmeticConditioning = 0xCC;
    public const byte LastFrame = 0xCF;
    public const byte FirstRestart = 0xD0;
    public const byte LastRestart = 0xD7;
    public const byte StartOfImage = 0xD8;
    public const byte EndOfImage = 0xD9;
    public const byte StartOfScan = 0xDA;
    public const byte RestartInterval = 0xDD;
}
