using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>Signal against exposure, and below it the deviation from a straight line.</summary>
internal static class ResponseChart
{
    private const float SignalHeight = 300;
    private const float DeviationHeight = 170;
    private static readonly double[] DeviationHalfWidths = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50];

    /// <summary>Builds the chart.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">One of its ISOs.</param>
    public static PlotModel From(SensorProfile profile, IsoProfile iso)
    {
        IReadOnlyList<ResponsePoint> points = ResponseSeries.Of(iso);
        ResponsePoint[] lit = [.. points.Where(p => p.SignalDn > 0)];
        double lowest = lit.Select(p => p.SignalDn).DefaultIfEmpty(1).Min();
        double highest = Math.Max(lit.Select(p => p.SignalDn).DefaultIfEmpty(10).Max(), 10 * lowest);
        ChartAxis deviation = DeviationAxis(points);
        double[] evs = [.. points.Select(p => p.ExposureEv)];
        string sentence = Sentence(iso, points);
        string title = string.Create(CultureInfo.InvariantCulture, $"Response and linearity at ISO {iso.Iso}");
        var heading = new ChartHeading(
            title,
            ProfileText.Body(profile),
            sentence,
            $"Above: mean signal over black, logarithmic, against exposure in EV with middle grey at 0. Below: each level's distance from a straight line in percent. One series a channel. {sentence}");
        return new PlotModel(
            heading,
            ChartAxis.Ev(evs.DefaultIfEmpty(-1).Min(), evs.DefaultIfEmpty(1).Max()) with { Title = "Exposure by shutter and aperture, relative to middle grey" },
            [
                new PlotPanel(ChartAxis.Logarithmic("Mean signal above black", "DN", lowest, highest), SignalHeight, SeriesOf(lit, p => new PlotPoint(p.ExposureEv, p.SignalDn)))
                {
                    Rules = [new PlotRule(true, 0, "middle grey", true)],
                },
                new PlotPanel(deviation, DeviationHeight, SeriesOf([.. points.Where(p => IsShown(p, deviation))], DeviationPoint))
                {
                    Rules = [new PlotRule(true, 0, string.Empty, true), new PlotRule(false, 0, string.Empty, true)],
                },
            ]);
    }

    // A dark level's distance is all offset: levels that do not count are shown as far as the scale goes.
    private static bool IsShown(ResponsePoint point, ChartAxis deviation) =>
        point.DeviationPercent is { } off && (point.Counts || Math.Abs(off) <= deviation.Maximum);

    private static PlotPoint DeviationPoint(ResponsePoint point)
    {
        double deviation = point.DeviationPercent!.Value;
        double half = Figure.NormalFactor95 * point.UncertaintyPercent;
        return new PlotPoint(point.ExposureEv, deviation) { LowerY95 = deviation - half, UpperY95 = deviation + half };
    }

    private static PlotSeries[] SeriesOf(IReadOnlyList<ResponsePoint> points, Func<ResponsePoint, PlotPoint> pointOf) =>
        [.. points.GroupBy(p => p.Channel).Select(g => new PlotSeries(g.Key, g.Key, [.. g.Select(p => pointOf(p) with { IsHollow = !p.Counts })]))];

    private static ChartAxis DeviationAxis(IReadOnlyList<ResponsePoint> points)
    {
        double widest = points.Where(p => p.Counts).Select(p => Math.Abs(p.DeviationPercent ?? 0)).DefaultIfEmpty(0).Max();
        double half = DeviationHalfWidths.FirstOrDefault(h => h >= 1.15 * widest, DeviationHalfWidths[^1]);
        int decimals = half < 0.1 ? 2 : half < 1 ? 1 : 0;
        return new ChartAxis("Off the line", "%", AxisScale.Linear, -half, half,
            [new AxisTick(-half, EvText.Signed(-half, decimals)), new AxisTick(0, "0"), new AxisTick(half, EvText.Signed(half, decimals))]);
    }

    private static string Sentence(IsoProfile iso, IReadOnlyList<ResponsePoint> points)
    {
        ChannelProfile[] judged = [.. iso.Channels.Where(c => c.LinearityErrorPercent?.Value is not null && c.LinearityLargestPercent?.Value is not null)];
        if (judged.Length == 0)
        {
            return points.Count == 0 ? "No response was measured." : "Linearity was not judged: too few levels lie between 5 % and 95 % of saturation.";
        }

        ChannelProfile worst = judged.MaxBy(c => c.LinearityLargestPercent!.Value)!;
        ResponsePoint? at = points.Where(p => p.Channel == worst.Name && p.Counts).MaxBy(p => Math.Abs(p.DeviationPercent ?? 0));
        string place = at is null ? string.Empty : $" at {EvText.Signed(at.ExposureEv, 1)} EV";
        double[] means = [.. judged.Select(c => c.LinearityErrorPercent!.Value!.Value).Order()];
        string mean = string.Join(" to ", new[] { means[0], means[^1] }.Select(Percent).Distinct());
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Between 5 % and 95 % of saturation the furthest level, {worst.Name}{place}, lies {Percent(worst.LinearityLargestPercent!.Value!.Value)} % off a straight line; the mean distance is {mean} %. Shutter errors count in both.");
    }

    // Two digits that say something, however small.
    private static string Percent(double percent)
    {
        int decimals = percent > 0 ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(percent)), 1, 4) : 1;
        return percent.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}
