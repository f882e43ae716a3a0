using System.Diagnostics;
using System.Globalization;
using SensorLab.Cli;
using SensorLab.Files;

namespace SensorLab.Fuzzing.Commands;

/// <summary>Runs a command inside this process and judges how it ended.</summary>
/// <remarks>
/// A command owes any input one of the contract's statuses but 1, an end within ten seconds and a gigabyte, no sign on either
/// stream that steers a terminal, and no file but those that it names.
/// </remarks>
internal static class CommandJudge
{
    // Of the processor or of the clock, whichever is less: a busy machine is no fault of a command's.
    private const double MostSeconds = 10;
    private const long MostBytes = 1_000_000_000;

    private static readonly TimeSpan Hang = TimeSpan.FromMinutes(15);

    private static readonly int[] Statuses = [0, 2, 3, 4, 5, 6, 7];

    /// <summary>Runs a command.</summary>
    /// <param name="words">Its words.</param>
    /// <param name="settings">The user's settings; empty for none.</param>
    /// <returns>How it ended, and what it wrote to both streams.</returns>
    public static (CommandOutcome Outcome, string Told) Run(string[] words, string settings = "")
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        string command = string.Join(' ', words);
        using var dog = new Timer(_ => Environment.FailFast($"It hangs: {command}"), null, Hang, Timeout.InfiniteTimeSpan);
        PeakMemory.Reset();
        var watch = Stopwatch.StartNew();
        TimeSpan processor = Environment.CpuUsage.TotalTime;
        int status = new CommandLine(new Workbench { SettingsPath = settings }, new Terminal(output, error, Live: null)).RunAsync(words).GetAwaiter().GetResult();
        double seconds = Math.Min(watch.Elapsed.TotalSeconds, (Environment.CpuUsage.TotalTime - processor).TotalSeconds);
        long peak = PeakMemory.Bytes();
        string told = output.ToString() + error;
        string? fault = !Statuses.Contains(status) ? $"Status {status}: {error}"
            : seconds > MostSeconds ? string.Create(CultureInfo.InvariantCulture, $"It took {seconds:F1} s.")
            : peak > MostBytes ? string.Create(CultureInfo.InvariantCulture, $"It took {peak / 1e6:F0} MB.")
            : ForeignText.Visible(told, keepsLines: true) != told ? "A sign that steers a terminal was written."
            : null;
        return (new CommandOutcome(command, status, seconds, peak, fault), told);
    }

    /// <summary>The outcome, at fault where a run's staging was left.</summary>
    /// <param name="outcome">How the command ended.</param>
    /// <param name="folder">The folder that all its outputs went below.</param>
    public static CommandOutcome WithLeftovers(CommandOutcome outcome, string folder) =>
        Directory.EnumerateFileSystemEntries(folder, ".sensorlab-*", SearchOption.AllDirectories).FirstOrDefault() is { } left
            ? outcome with { Fault = $"{left} was left." }
            : outcome;
}
