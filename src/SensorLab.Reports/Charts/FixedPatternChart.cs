using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>Fixed pattern by pixel, row and column against exposure, beside temporal noise.</summary>
internal static class FixedPatternChart
{
    private const float Height = 360;

    // Parts smaller than this share of the smallest pixel part would stretch the axis without saying anything.
    private const double SmallestShare = 0.01;

    /// <summary>The parts at every lit level that does not clip, channel by channel in rising EV.</summary>
    /// <param name="iso">The ISO.</param>
    public static IReadOnlyList<FixedPatternPoint> Points(IsoProfile iso) =>
    [
        .. from channel in iso.Channels
           where channel.BlackLevelDn?.Value is not null
           from level in iso.Levels
           where RoleName.IsLit(level.Role) && level.Ev is not null
           from measured in level.Channels
           where measured.Name == channel.Name && measured.FixedPatternParts is not null && measured.ClippedFraction == 0
           let signal = measured.MeanDn - channel.BlackLevelDn!.Value!.Value
           where signal > 0 && !(signal >= (channel.FirstClipDn?.Value ?? double.PositiveInfinity))
           orderby level.Ev
           let parts = measured.FixedPatternParts
           group new FixedPatternPoint(
               channel.Name,
               level.Ev!.Value,
               signal,
               measured.TemporalVarianceDn2 is > 0 and { } variance ? Math.Sqrt(variance) : null,
               new PatternPart(parts.PixelDn2, parts.PixelUncertaintyDn2),
               new PatternPart(parts.RowDn2, parts.RowUncertaintyDn2),
               new PatternPart(parts.ColumnDn2, parts.ColumnUncertaintyDn2)) by channel.Name into g
           from point in g
           select point,
    ];

    /// <summary>Builds the chart of one channel.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">One of its ISOs.</param>
    /// <param name="channel">The channel; null for the first green (Y in monochrome).</param>
    public static PlotModel From(SensorProfile profile, IsoProfile iso, string? channel = null)
    {
        string name = channel ?? iso.Channels.Select(c => c.Name).FirstOrDefault(ChannelName.IsPooled) ?? string.Empty;
        FixedPatternPoint[] points = [.. Points(iso).Where(p => p.Channel == name)];
        PlotSeries[] series =
        [
            new("fixed, pixel by pixel", "1", PartOf(points, p => p.Pixel)),
            new("fixed, by row", "2", PartOf(points, p => p.Row)),
            new("fixed, by column", "3", PartOf(points, p => p.Column)),
            new("temporal noise, for comparison", "ink", [.. points.Where(p => p.TemporalDn is not null).Select(p => new PlotPoint(p.Ev, p.TemporalDn!.Value))], PlotForm.Line),
        ];
        double[] evs = [.. points.Select(p => p.Ev)];
        double floor = SmallestShare * points.Select(p => p.Pixel.SizeDn).Where(v => v > 0).DefaultIfEmpty(1).Min();
        double[] sizes = [.. series.SelectMany(s => s.Points).Select(p => p.Y).Where(y => y >= floor)];
        double lowest = sizes.DefaultIfEmpty(0.1).Min();
        string sentence = Sentence(name, points, iso.Channels.FirstOrDefault(c => c.Name == name));
        string title = string.Create(CultureInfo.InvariantCulture, $"Fixed pattern at ISO {iso.Iso}, channel {(name.Length > 0 ? name : "unknown")}");
        var heading = new ChartHeading(
            title,
            ProfileText.Body(profile),
            sentence,
            $"Standard deviations in DN, logarithmic, against exposure in EV with middle grey at 0: fixed pattern by pixel, row and column, and temporal noise. {sentence}");
        return new PlotModel(
            heading,
            ChartAxis.Ev(evs.DefaultIfEmpty(-1).Min(), evs.DefaultIfEmpty(1).Max()),
            [
                new PlotPanel(ChartAxis.Logarithmic("Standard deviation", "DN", lowest, Math.Max(sizes.DefaultIfEmpty(1).Max(), 10 * lowest)), Height, series)
                {
                    Rules = [new PlotRule(true, 0, "middle grey", true)],
                },
            ]);
    }

    private static PlotPoint[] PartOf(FixedPatternPoint[] points, Func<FixedPatternPoint, PatternPart> partOf) =>
    [
        .. points.Select(p => (p.Ev, Part: partOf(p))).Where(p => p.Part.SizeDn > 0).Select(p => p.Part.IsFound
            ? new PlotPoint(p.Ev, p.Part.SizeDn) { LowerY95 = p.Part.Interval95.Lower, UpperY95 = p.Part.Interval95.Upper }
            : new PlotPoint(p.Ev, p.Part.SizeDn) { IsHollow = true, IsAtMost = true }),
    ];

    private static string Sentence(string name, FixedPatternPoint[] points, ChannelProfile? channel)
    {
        if (points.Length == 0)
        {
            return "No fixed pattern was measured: it takes levels of two frames or more.";
        }

        FixedPatternPoint brightest = points[^1];
        double[] parts = [.. new[] { brightest.Pixel, brightest.Row, brightest.Column }.Select(p => Math.Max(0, p.VarianceDn2))];
        double all = parts.Sum();
        string split = all <= 0 ? "no fixed pattern stands out" : string.Create(
            CultureInfo.InvariantCulture,
            $"{100 * parts[0] / all:0} % of the fixed pattern's variance is pixel by pixel, {100 * parts[1] / all:0} % by row and {100 * parts[2] / all:0} % by column");
        FixedPatternPoint? crossing = points.FirstOrDefault(p => p.TemporalDn is { } t && Math.Sqrt(Math.Max(0, p.Pixel.VarianceDn2)) > t);
        string against = crossing is null
            ? "temporal noise is the larger part at every level that does not clip"
            : $"from {EvText.Signed(crossing.Ev, 1)} EV on it is more than temporal noise";
        return $"At {EvText.Signed(brightest.Ev, 1)} EV {split}; {against}. {name}: PRNU {FigureText.WithInterval(channel?.PrnuPercent, "%")}, DSNU {FigureText.WithInterval(channel?.DsnuElectron, "e⁻")}.";
    }
}
