using System.Globalization;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>SNR against EV at one ISO, total and temporal, apart from its drawing.</summary>
internal sealed record SnrChartModel
{
    /// <summary>The words that stand with it.</summary>
    public required ChartHeading Heading { get; init; }

    /// <summary>The ISO setting.</summary>
    public required int Iso { get; init; }

    /// <summary>EV, middle grey at 0.</summary>
    public required ChartAxis Horizontal { get; init; }

    /// <summary>SNR of a single pixel, a ratio.</summary>
    public required ChartAxis Vertical { get; init; }

    /// <summary>The model with temporal noise and fixed pattern.</summary>
    public required ChartSeries Total { get; init; }

    /// <summary>The model with temporal noise alone.</summary>
    public required ChartSeries Temporal { get; init; }

    /// <summary>What the levels measured, fixed pattern included.</summary>
    public required ChartSeries MeasuredTotal { get; init; }

    /// <summary>What the levels measured, temporal noise alone.</summary>
    public required ChartSeries MeasuredTemporal { get; init; }

    /// <summary>The criteria, the highest SNR first.</summary>
    public required IReadOnlyList<CriterionLine> Criteria { get; init; }

    /// <summary>Where the first channel saturates; null where not measured.</summary>
    public EvMark? BrightEnd { get; init; }

    /// <summary>Levels too near saturation to have an SNR: not drawn, but counted.</summary>
    public required int ClippedLevels { get; init; }

    /// <summary>Whether there is nothing to draw.</summary>
    public bool IsEmpty => new[] { Total, Temporal, MeasuredTotal, MeasuredTemporal }.All(series => series.Points.Count == 0);

    /// <summary>Builds the model.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">One of its ISOs.</param>
    public static SnrChartModel From(SensorProfile profile, IsoProfile iso)
    {
        var black = iso.Channels.Where(c => c.BlackLevelDn?.Value is not null).ToDictionary(c => c.Name, c => c.BlackLevelDn!.Value!.Value);
        LevelRecord[] lit = [.. iso.Levels.Where(level => RoleName.IsLit(level.Role) && level.Ev is not null).OrderBy(level => level.Ev)];
        LevelRecord[] clean = [.. lit.Where(level => !IsClipped(iso, level, black))];
        string pool = iso.Channels.Any(c => c.Name == ChannelName.Monochrome) ? "one pixel" : "one green pixel";
        var total = new ChartSeries($"total, of {pool}", Curve(iso.SnrCurve, point => point.SnrTotal));
        var temporal = new ChartSeries("temporal noise alone", Curve(iso.SnrCurve, point => point.SnrTemporal));
        var measuredTotal = new ChartSeries("levels, total", Points(clean, iso, total: true));
        var measuredTemporal = new ChartSeries("levels, temporal", Points(clean, iso, total: false));
        EvMark? bright = EvMark.Above(iso.Latitude.AboveEv);
        CriterionLine[] criteria = [.. iso.Latitude.BelowEv.OrderByDescending(end => end.Snr).Select(end => CriterionOf(end, total))];
        ChartPoint[] all = [.. new[] { total, temporal, measuredTotal, measuredTemporal }.SelectMany(series => series.Points)];
        return new SnrChartModel
        {
            Heading = SnrSentence.Heading(profile, iso, total, temporal, criteria),
            Iso = iso.Iso,
            Horizontal = HorizontalAxis(all, criteria, bright),
            Vertical = VerticalAxis(all, criteria),
            Total = total,
            Temporal = temporal,
            MeasuredTotal = measuredTotal,
            MeasuredTemporal = measuredTemporal,
            Criteria = criteria,
            BrightEnd = bright,
            ClippedLevels = lit.Length - clean.Length,
        };
    }

    // From the first clip on the variance collapses, and S/σ says nothing of the picture.
    private static bool IsClipped(IsoProfile iso, LevelRecord level, Dictionary<string, double> blackDn) =>
        level.Channels.Where(c => ChannelName.IsPooled(c.Name)).Any(channel =>
        {
            double? firstClipDn = iso.Channels.FirstOrDefault(c => c.Name == channel.Name)?.FirstClipDn?.Value;
            return channel.ClippedFraction > 0 ||
                (firstClipDn is { } clip && blackDn.TryGetValue(channel.Name, out double black) && channel.MeanDn - black >= clip);
        });

    private static ChartPoint[] Curve(IReadOnlyList<SnrPoint> curve, Func<SnrPoint, Figure?> figureOf) =>
    [
        .. curve.Where(point => figureOf(point)?.Value is > 0).OrderBy(point => point.Ev).Select(point =>
        {
            Figure figure = figureOf(point)!;
            return new ChartPoint(point.Ev, figure.Value!.Value, figure.Lower95, figure.Upper95);
        }),
    ];

    private static ChartPoint[] Points(LevelRecord[] levels, IsoProfile iso, bool total) =>
    [
        .. from level in levels
           let snr = LevelSnr.Of(level, iso.Channels, total)
           where snr is not null
           select new ChartPoint(level.Ev!.Value, snr.Value.Snr, snr.Value.Lower95, snr.Value.Upper95),
    ];

    private static CriterionLine CriterionOf(ShadowEnd end, ChartSeries total)
    {
        EvMark? crossing = EvMark.Below(end.PerPixel);
        bool neverReached = crossing is null && total.Points.Count > 0 && total.Points.Max(point => point.Y) < end.Snr;
        bool emphasised = end.Snr == ShadowMark.DefaultSnr;
        string label = string.Create(CultureInfo.InvariantCulture, $"SNR {end.Snr:0.##}");
        return new CriterionLine(end.Snr, label, crossing, emphasised, neverReached);
    }

    private static ChartAxis HorizontalAxis(ChartPoint[] points, CriterionLine[] criteria, EvMark? bright)
    {
        double[] evs = [.. points.Select(p => p.X), .. criteria.Where(c => c.Crossing is not null).Select(c => c.Crossing!.Value.Ev), .. bright is { } end ? new[] { end.Ev } : []];
        return ChartAxis.Ev(evs.DefaultIfEmpty(-1).Min(), evs.DefaultIfEmpty(1).Max());
    }

    // SNR below a half says nothing more (the axis' margin takes it from here to there); the axis holds every criterion.
    private static ChartAxis VerticalAxis(ChartPoint[] points, CriterionLine[] criteria)
    {
        double[] snrs = [.. points.Select(p => p.Y), .. criteria.Select(c => c.Snr)];
        double lowest = Math.Max(0.56, snrs.DefaultIfEmpty(1).Min());
        return ChartAxis.Logarithmic("SNR of a single pixel", string.Empty, lowest, Math.Max(snrs.DefaultIfEmpty(100).Max(), 10 * lowest));
    }
}
