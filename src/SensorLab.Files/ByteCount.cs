using System.Globalization;

namespace SensorLab.Files;

/// <summary>Sizes in words.</summary>
internal static class ByteCount
{
    private const int MegabyteBytes = 1 << 20;

    /// <summary>A limit as it is told: in whole megabytes, or in bytes below one.</summary>
    public static string InWords(int bytes) => bytes >= MegabyteBytes
        ? string.Create(CultureInfo.InvariantCulture, $"{bytes / MegabyteBytes} MB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes} bytes");
}
