using System.Globalization;

namespace SensorLab.Benchmarks.Processes;

/// <summary>Times of processes that were run in turn.</summary>
internal sealed class Figures
{
    private readonly Dictionary<string, List<(double Seconds, double PeakMiB)>> _runs = [];

    /// <summary>Adds a run.</summary>
    public void Add(string name, (double Seconds, double PeakMiB) run)
    {
        if (!_runs.TryGetValue(name, out List<(double, double)>? runs))
        {
            _runs[name] = runs = [];
        }

        runs.Add(run);
    }

    /// <summary>Prints each process, and its ratio to others taken run by run.</summary>
    /// <param name="yardsticks">What the others are compared with.</param>
    public void Print(params string[] yardsticks)
    {
        foreach ((string name, List<(double Seconds, double PeakMiB)> runs) in _runs)
        {
            double peak = runs.Max(r => r.PeakMiB);
            IEnumerable<string> ratios = yardsticks.Where(y => y != name).Select(y =>
                Text($"{MedianOf(runs.Zip(_runs[y], (own, other) => own.Seconds / other.Seconds)):F3} of {y}"));
            Console.WriteLine(Text($"{name,-28} {runs.Min(r => r.Seconds),7:F3} s at best, {MedianOf(runs.Select(r => r.Seconds)),7:F3} s median")
                + (peak > 0 ? Text($", {peak:F0} MiB") : string.Empty)
                + (yardsticks.Contains(name) ? string.Empty : $"; {string.Join(", ", ratios)}"));
        }

        Console.WriteLine(Text($"{Environment.ProcessorCount} cores; load {File.ReadAllText("/proc/loadavg").Trim()}"));
    }

    private static double MedianOf(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
