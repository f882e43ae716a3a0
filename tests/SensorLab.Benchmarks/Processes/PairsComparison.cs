using SensorLab.RawFiles.Tests.Support;
using SensorLab.Simulation.Writing;

namespace SensorLab.Benchmarks.Processes;

/// <summary>Uncompressed frames: <c>sensorlab characterise</c>, hashes included, beside plain NumPy on the same pairs without any.</summary>
internal static class PairsComparison
{
    /// <summary>Writes the set where it is not there, and runs both programs in turn.</summary>
    public static void Run(Options options)
    {
        string folder = FrameSetWriter.Ensure(options.Folder, options.Frames, "uncompressed", new DngOptions());
        string[] pairs = [.. Directory.GetFiles(folder, "*.dng", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
        string script = Path.Combine(AppContext.BaseDirectory, "Processes/numpy_pairs.py");
        using var profile = new TemporaryFile([]);
        var figures = new Figures();
        for (int run = -1; run < options.Runs; run++)
        {
            var numpy = WholeProcess.Run("/usr/bin/python3", [script, $"{FlatFrames.Width}", $"{FlatFrames.Height}", .. pairs]);
            var own = WholeProcess.SensorLab(options.Program, "characterise", folder, "--out", profile.Path);
            if (run >= 0)
            {
                figures.Add("NumPy", numpy);
                figures.Add("sensorlab characterise", own);
            }
        }

        figures.Print("NumPy");
    }
}
