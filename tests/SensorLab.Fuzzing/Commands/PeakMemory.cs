using System.Globalization;

namespace SensorLab.Fuzzing.Commands;

/// <summary>The most memory that this process held since it was last asked to forget: its resident set, native libraries included.</summary>
/// <remarks>Linux keeps the peak and lets it be set back (proc(5), clear_refs and VmHWM); elsewhere what is held now stands for it.</remarks>
internal static class PeakMemory
{
    private const string Forget = "/proc/self/clear_refs";
    private const string Status = "/proc/self/status";
    private const string Peak = "VmHWM:";

    /// <summary>Forgets the peak so far.</summary>
    public static void Reset()
    {
        if (OperatingSystem.IsLinux())
        {
            File.WriteAllText(Forget, "5");
        }
    }

    /// <summary>The peak in bytes.</summary>
    public static long Bytes() => OperatingSystem.IsLinux()
        ? long.Parse(File.ReadLines(Status).First(line => line.StartsWith(Peak, StringComparison.Ordinal))[Peak.Length..].Replace("kB", null, StringComparison.Ordinal).Trim(), CultureInfo.InvariantCulture) * 1024
        : Environment.WorkingSet;
}
