using SensorLab.Cli.Arguments;
using SensorLab.Planning.Plans;

namespace SensorLab.Cli.Commands;

/// <summary>Reads the words of <c>plan</c>; null where a word is off.</summary>
internal static class PlanArguments
{
    /// <summary>1/8000..30, the fastest time first.</summary>
    public static ShutterRange? Range(string word) =>
        word.Split("..") is [var fastest, var slowest] && Time(fastest) is { } first && Time(slowest) is { } last && first < last ? new ShutterRange(first, last) : null;

    /// <summary>1/60@100.</summary>
    public static MeteredExposure? Metered(string word) =>
        word.Split('@') is [var time, var iso] && Time(time) is { } exposure && NumberWords.WholeNumbers(iso, 1) is [> 0 and var setting] ? new MeteredExposure(exposure, setting) : null;

    /// <summary>50 or 60.</summary>
    public static int? Mains(string word) => word is "50" ? 50 : word is "60" ? 60 : null;

    private static ShutterTime? Time(string word) => NumberWords.Seconds(word) is { } seconds ? ShutterTime.Nearest(seconds) : null;
}
