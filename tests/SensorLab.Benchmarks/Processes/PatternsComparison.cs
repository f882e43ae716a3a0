using SensorLab.Frames;
using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Sets;

namespace SensorLab.Benchmarks.Processes;

/// <summary>All statistics of levels in memory, on one thread: filters that repeat over 6 × 6 and 4 × 4 photosites, in turn with 2 × 2.</summary>
internal static class PatternsComparison
{
    private const double SignalDn = 2000;
    private const double ElectronPerDn = 4;

    private static readonly (string Name, string Filters)[] Patterns =
    [
        ("2 × 2", "RGGB"),
        ("6 × 6", "6x6:GBGGRGRGRBGBGBGGRGGRGGBGBGBRGRGRGGBG"),
        ("4 × 4", "4x4:RRGGRRGGGGBBGGBB"),
    ];

    /// <summary>Measures levels of so many frames in turn.</summary>
    public static void Run(Options options)
    {
        (string Name, Level Level, ushort[][] Codes)[] levels = [.. Patterns.Select(p => Expose(p.Name, ColourFilterArray.FromName(p.Filters)!.Value, options.Frames))];
        var figures = new Figures();
        for (int run = -1; run < options.Runs; run++)
        {
            foreach ((string name, Level level, ushort[][] codes) in levels)
            {
                double seconds = Measure(level, codes);
                if (run >= 0)
                {
                    figures.Add(name, (seconds / options.Frames, 0));
                }
            }
        }

        figures.Print(Patterns[0].Name);
    }

    private static (string Name, Level Level, ushort[][] Codes) Expose(string name, ColourFilterArray filters, int frames)
    {
        ushort[][] codes = [.. Enumerable.Range(0, frames).Select(i => FlatFrames.Codes(SignalDn, ElectronPerDn, i + 1, filters))];
        SetFrame[] own = [.. Enumerable.Range(0, frames).Select(i => new SetFrame { File = $"bracket/P{i}.dng", Raw = FlatFrames.Frame(100, 0.1, i, filters), Role = FrameRole.Bracket, ContentKey = (ulong)i })];
        return (name, new Level(new LevelKey(100, FrameRole.Bracket, 0.1, 5.6, null, null), own), codes);
    }

    private static double Measure(Level level, ushort[][] codes)
    {
        TimeSpan began = Environment.CpuUsage.TotalTime;
        MemoryReader[] readers = [.. level.Frames.Select((frame, i) => new MemoryReader(frame.Raw, codes[i]))];
        LevelMeter.Measure(level, readers, MeasurementArea.Of(level.Frames[0].Raw.Layout));
        return (Environment.CpuUsage.TotalTime - began).TotalSeconds;
    }
}
