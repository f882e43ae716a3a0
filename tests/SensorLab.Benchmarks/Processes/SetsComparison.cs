using System.Diagnostics;
using SensorLab.RawFiles.Tests.Support;
using SensorLab.Simulation.Writing;

namespace SensorLab.Benchmarks.Processes;

/// <summary>
/// A compressed set: <c>characterise</c> and <c>intake</c> as whole processes beside nothing but decoding the same files,
/// by LibRaw and by SensorLab, on all cores; and a tenth of the frames for the memory.
/// </summary>
internal static class SetsComparison
{
    /// <summary>Writes the sets where they are not there, and runs all in turn.</summary>
    public static void Run(Options options)
    {
        string large = FrameSetWriter.Ensure(options.Folder, options.Frames, "lossless", DngOptions.LosslessTiles);
        string small = FrameSetWriter.Ensure(options.Folder, Math.Max(10, options.Frames / 10), "lossless", DngOptions.LosslessTiles);
        string[] files = Directory.GetFiles(large, "*.dng", SearchOption.AllDirectories);
        using var profile = new TemporaryFile([]);
        var figures = new Figures();
        for (int run = 0; run < options.Runs; run++)
        {
            figures.Add("LibRaw", Decode(files, LibRawUnpacking.Unpack));
            figures.Add("sensorlab characterise", WholeProcess.SensorLab(options.Program, "characterise", large, "--out", profile.Path));
            figures.Add("own decoding", Decode(files, f => FrameReading.ReadAll(f)));
            figures.Add("sensorlab intake", WholeProcess.SensorLab(options.Program, "intake", large));
            figures.Add("characterise, a tenth", WholeProcess.SensorLab(options.Program, "characterise", small, "--out", profile.Path));
        }

        figures.Print("LibRaw", "own decoding");
    }

    private static (double Seconds, double PeakMiB) Decode(string[] files, Action<string> decode)
    {
        long began = Stopwatch.GetTimestamp();
        Parallel.ForEach(files, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, decode);
        return (Stopwatch.GetElapsedTime(began).TotalSeconds, 0);
    }
}
