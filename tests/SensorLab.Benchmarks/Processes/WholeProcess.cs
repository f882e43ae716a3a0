using System.Diagnostics;
using System.Globalization;

namespace SensorLab.Benchmarks.Processes;

/// <summary>Times a whole process, start-up included, and asks the kernel for its peak of resident memory.</summary>
internal static class WholeProcess
{
    private const int PollMilliseconds = 10;

    /// <summary>The repository's root.</summary>
    public static string Repository { get; } = FindRepository();

    /// <summary>The program that <c>src/sensorlab</c> runs.</summary>
    public static string BuiltProgram => Path.Combine(Repository, "out/program/SensorLab.Cli.dll");

    /// <summary>Runs SensorLab to its end.</summary>
    public static (double Seconds, double PeakMiB) SensorLab(string program, params string[] arguments) =>
        program.EndsWith(".dll", StringComparison.Ordinal) ? Run("dotnet", [program, .. arguments], mostStatus: 1) : Run(program, arguments, mostStatus: 1);

    /// <summary>Runs a program to its end.</summary>
    /// <param name="program">Its name or path.</param>
    /// <param name="arguments">Its arguments.</param>
    /// <param name="mostStatus">The highest exit status that counts as done: 1 is a profile with warnings.</param>
    /// <returns>Wall time in seconds, peak of resident memory in MiB.</returns>
    /// <exception cref="InvalidOperationException">It failed.</exception>
    public static (double Seconds, double PeakMiB) Run(string program, IEnumerable<string> arguments, int mostStatus = 0)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        long began = Stopwatch.GetTimestamp();
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> errors = process.StandardError.ReadToEndAsync();
        double peak = 0;
        while (!process.WaitForExit(PollMilliseconds))
        {
            peak = Math.Max(peak, PeakMiBOf(process.Id));
        }

        double seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
        return process.ExitCode <= mostStatus
            ? (seconds, peak)
            : throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {output.Result}{errors.Result}");
    }

    /// <summary>The kernel keeps the peak itself, so that polling misses only the last moment.</summary>
    private static double PeakMiBOf(int process)
    {
        try
        {
            string? line = File.ReadLines($"/proc/{process}/status").FirstOrDefault(l => l.StartsWith("VmHWM:", StringComparison.Ordinal));
            return line is null ? 0 : double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2].Trim(), CultureInfo.InvariantCulture) / 1024;
        }
        catch (IOException)
        {
            return 0;
        }
    }

    private static string FindRepository()
    {
        string folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "SensorLab.sln")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("This runs from inside the repository.");
        }

        return folder;
    }
}
