using System.Globalization;

namespace SensorLab.Cli.Presentation;

/// <summary>Sizes of files in words.</summary>
internal static class ByteText
{
    private const double Kilobyte = 1000;

    private const double Megabyte = 1e6;

    /// <summary>A size such as 3.1 MB, 12 kB or 80 bytes.</summary>
    public static string Of(long bytes) =>
        bytes >= Megabyte ? string.Create(CultureInfo.InvariantCulture, $"{bytes / Megabyte:F1} MB")
        : bytes >= Kilobyte ? string.Create(CultureInfo.InvariantCulture, $"{bytes / Kilobyte:F0} kB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes} bytes");
}
