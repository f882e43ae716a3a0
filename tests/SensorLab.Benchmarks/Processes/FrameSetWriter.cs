using System.Globalization;
using SensorLab.Frames;
using SensorLab.Simulation.Writing;

namespace SensorLab.Benchmarks.Processes;

/// <summary>Writes frame sets of 24 megapixels: of each ISO two dark frames, two metered ones, and pairs of a bracket.</summary>
internal static class FrameSetWriter
{
    /// <summary>Frames of an ISO where a set has more than one ISO.</summary>
    private const int FramesPerIso = 60;

    /// <summary>Stops that a bracket spans, from deep shadow to past the clip.</summary>
    private const double SpanEv = 13;

    /// <summary>Means over black in DN: of the brightest level, and of the metered frames.</summary>
    private const double BrightestDn = 24_000;

    private const double MeteredDn = 2_000;

    /// <summary>The folder of a set, written unless it is there whole.</summary>
    public static string Ensure(string root, int frames, string name, DngOptions form)
    {
        string folder = Path.Combine(root, string.Create(CultureInfo.InvariantCulture, $"{name}-{frames}"));
        if (Directory.Exists(folder))
        {
            return folder;
        }

        Console.WriteLine($"Writing {folder}; later runs find it there. Delete it when done.");
        string unfinished = folder + ".unfinished";
        foreach (string role in new[] { "dark", "metered", "bracket" })
        {
            Directory.CreateDirectory(Path.Combine(unfinished, role));
        }

        int isos = Math.Max(1, frames / FramesPerIso);
        int perIso = frames / isos;
        Parallel.For(0, isos * perIso, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
            Write(unfinished, i, 100 << (i / perIso), i % perIso, perIso, form));
        Directory.Move(unfinished, folder);
        return folder;
    }

    private static void Write(string folder, int number, int iso, int index, int perIso, DngOptions form)
    {
        int levels = Math.Max(2, (perIso - 4) / 2);
        double evBelowBrightest = index < 4 ? Math.Log2(BrightestDn / MeteredDn) : SpanEv * ((index - 4) / 2) / (levels - 1);
        (string role, double signalDn) = index switch
        {
            < 2 => ("dark", 0),
            < 4 => ("metered", MeteredDn),
            _ => ("bracket", BrightestDn * Math.Pow(2, -evBelowBrightest)),
        };
        double seconds = 4 * Math.Pow(2, -evBelowBrightest);
        RawFrame frame = FlatFrames.Frame(iso, seconds, number);
        string path = Path.Combine(folder, role, string.Create(CultureInfo.InvariantCulture, $"P{number:D4}.dng"));
        DngWriter.Write(path, frame, FlatFrames.Codes(signalDn, electronPerDn: 400.0 / iso, seed: number), form);
    }
}
