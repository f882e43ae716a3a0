using System.Globalization;

namespace SensorLab.Benchmarks.Processes;

/// <summary>What a comparison of whole processes is run with.</summary>
/// <param name="Folder">Where its frames are written, and found again by the next run.</param>
/// <param name="Frames">Frames of the set.</param>
/// <param name="Runs">Runs of each process, in turn.</param>
/// <param name="Program">The program timed: an archive's, or an assembly that <c>dotnet</c> runs.</param>
internal sealed record Options(string Folder, int Frames, int Runs, string Program)
{
    /// <summary>Reads <c>--folder</c>, <c>--frames</c>, <c>--runs</c> and <c>--program</c> behind the comparison's name.</summary>
    /// <exception cref="ArgumentException">An option is unknown or has no value.</exception>
    public static Options Of(string[] args, int frames, int runs)
    {
        var options = new Options(Path.Combine(Path.GetTempPath(), "sensorlab-benchmark"), frames, runs, WholeProcess.BuiltProgram);
        for (int i = 1; i < args.Length; i += 2)
        {
            string value = i + 1 < args.Length ? args[i + 1] : throw new ArgumentException($"{args[i]} has no value.", nameof(args));
            options = args[i] switch
            {
                "--folder" => options with { Folder = Path.GetFullPath(value) },
                "--frames" => options with { Frames = int.Parse(value, CultureInfo.InvariantCulture) },
                "--runs" => options with { Runs = int.Parse(value, CultureInfo.InvariantCulture) },
                "--program" => options with { Program = Path.GetFullPath(value) },
                _ => throw new ArgumentException($"{args[i]} is not known: --folder, --frames, --runs and --program are.", nameof(args)),
            };
        }

        return options;
    }
}
