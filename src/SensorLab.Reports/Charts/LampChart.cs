using System.Globalization;

namespace SensorLab.Reports.Charts;

/// <summary>The lamp's light over the set's time, as single frames tell it: minutes to the right, EV from the metered light upwards.</summary>
internal static class LampChart
{
    private const float Height = 300;

    /// <summary>The axis is no narrower than this either way: what is harmless should look so.</summary>
    private const double LeastEv = 0.3;

    private const double MostLabels = 10;

    private static readonly double[] Steps = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];

    /// <summary>Builds the chart.</summary>
    /// <param name="readings">What the frames tell, in any order.</param>
    /// <param name="body">The body's name, from anywhere.</param>
    /// <param name="hasTimes">Whether the frames have times; else they are counted.</param>
    public static PlotModel From(IReadOnlyList<LampReading> readings, string body, bool hasTimes)
    {
        double most = Math.Max(LeastEv, 1.15 * readings.Select(r => Math.Abs(r.Ev)).DefaultIfEmpty(0).Max());
        double last = Math.Max(1, readings.Select(r => r.Minutes).DefaultIfEmpty(1).Max());
        PlotSeries[] series = [.. readings.GroupBy(r => r.Iso).OrderBy(g => g.Key).Select((iso, i) => new PlotSeries(
            string.Create(CultureInfo.InvariantCulture, $"ISO {iso.Key}"),
            ((i % 5) + 1).ToString(CultureInfo.InvariantCulture),
            [.. iso.OrderBy(r => r.Minutes).Select(r => new PlotPoint(r.Minutes, r.Ev))],
            PlotForm.JoinedPoints))];
        var vertical = new ChartAxis("Light against the metered light", "EV", AxisScale.Linear, -most, most, Ticks(-most, most));
        var horizontal = new ChartAxis(hasTimes ? "Time since the first frame" : "Frames since the first", hasTimes ? "min" : string.Empty, AxisScale.Linear, 0, last * 1.02, Ticks(0, last * 1.02));
        string sentence = Sentence(readings);
        var heading = new ChartHeading("The lamp's light over time", body, sentence, $"For each ISO the light of its frames against the light that it was metered in, in EV upwards, over the set's time. {sentence}");
        return new PlotModel(heading, horizontal, [new PlotPanel(vertical, Height, series) { Rules = [new PlotRule(false, 0, "as metered", true)] }]);
    }

    private static AxisTick[] Ticks(double least, double most)
    {
        double step = Steps.FirstOrDefault(s => (most - least) / s <= MostLabels, Steps[^1]);
        int first = (int)Math.Ceiling(least / step);
        int count = Math.Min((int)MostLabels + 1, (int)Math.Floor(most / step) - first + 1);
        return [.. Enumerable.Range(first, count).Select(i => new AxisTick(i * step, least < 0 ? EvText.Signed(i * step) : ChartAxis.Plain(Math.Round(i * step, 1))))];
    }

    private static string Sentence(IReadOnlyList<LampReading> readings)
    {
        if (readings.Count == 0)
        {
            return "No frame tells of the lamp yet.";
        }

        LampReading worst = readings.MaxBy(r => Math.Abs(r.Ev));
        return string.Create(CultureInfo.InvariantCulture, $"The frame furthest from its ISO's metered light lies {EvText.Signed(worst.Ev)} EV off, at ISO {worst.Iso}; what a sample and a shutter may be off by is in it.");
    }
}
