using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>Black and white as the files declare them, less what was measured, against ISO.</summary>
internal static class DeclaredLevelsChart
{
    private const float Height = 150;

    // Channels of one ISO stand side by side, this many stops of ISO apart.
    private const double Spread = 0.09;

    /// <summary>Builds the chart.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static PlotModel From(SensorProfile profile)
    {
        IReadOnlyList<DeclaredLevel> levels = DeclaredLevel.Of(profile);
        int[] isos = [.. profile.IsoProfiles.Select(i => i.Iso).Order().DefaultIfEmpty(100)];
        string sentence = Sentence(levels);
        var heading = new ChartHeading(
            "Black and white as declared, less as measured",
            ProfileText.Body(profile),
            sentence,
            $"Declared less measured black level above, declared white less measured saturation below, in DN, against ISO, one series a channel. {sentence}");
        var horizontal = new ChartAxis("ISO", string.Empty, AxisScale.Linear, Math.Log2(isos[0]) - 0.5, Math.Log2(isos[^1]) + 0.5,
            [.. Thinned(isos).Select(iso => new AxisTick(Math.Log2(iso), iso.ToString(CultureInfo.InvariantCulture)))]);
        PlotSeries[] black = SeriesOf(levels, l => l.BlackOffDn, l => l.BlackDn);
        PlotSeries[] white = SeriesOf(levels, l => l.WhiteOffDn, l => l.SaturationDn);
        return new PlotModel(heading, horizontal, [PanelOf("Black", black, 1), PanelOf("White", white, 10)]);
    }

    // Labels of more than a dozen ISOs would run into each other.
    private static IEnumerable<int> Thinned(int[] isos)
    {
        int step = (isos.Length + 11) / 12;
        return isos.Where((_, index) => index % step == 0);
    }

    private static PlotSeries[] SeriesOf(IReadOnlyList<DeclaredLevel> levels, Func<DeclaredLevel, double?> offOf, Func<DeclaredLevel, Figure?> measuredOf)
    {
        string[] channels = [.. levels.Select(l => l.Channel).Distinct()];
        return
        [
            .. channels.Select((channel, index) => new PlotSeries(channel, channel,
            [
                .. from level in levels
                   where level.Channel == channel
                   let off = offOf(level)
                   where off is not null
                   let figure = measuredOf(level)!
                   select new PlotPoint(Math.Log2(level.Iso) + (Spread * (index - ((channels.Length - 1) / 2.0))), off.Value)
                   {
                       LowerY95 = off - (figure.Upper95 - figure.Value),
                       UpperY95 = off + (figure.Value - figure.Lower95),
                   },
            ])),
        ];
    }

    private static PlotPanel PanelOf(string title, PlotSeries[] series, double least)
    {
        double widest = series.SelectMany(s => s.Points).Select(p => Math.Abs(p.Y)).Append(least / 1.2).Max();
        double step = Math.Pow(10, Math.Ceiling(Math.Log10(widest)));
        double half = new[] { 0.2, 0.5, 1 }.Select(share => share * step).First(h => h >= widest);
        int decimals = half < 1 ? 1 : 0;
        var axis = new ChartAxis(title, "DN", AxisScale.Linear, -1.1 * half, 1.1 * half,
            [new AxisTick(-half, EvText.Signed(-half, decimals)), new AxisTick(0, "0"), new AxisTick(half, EvText.Signed(half, decimals))]);
        return new PlotPanel(axis, Height, series) { Rules = [new PlotRule(false, 0, "as measured", true)] };
    }

    private static string Sentence(IReadOnlyList<DeclaredLevel> levels)
    {
        DeclaredLevel? black = levels.Where(l => l.BlackOffDn is not null).MaxBy(l => Math.Abs(l.BlackOffDn!.Value));
        DeclaredLevel? white = levels.Where(l => l.WhiteOffDn is not null).MaxBy(l => Math.Abs(l.WhiteOffDn!.Value));
        if (black is null && white is null)
        {
            return "The files declare no black and white level, or none was measured.";
        }

        string ofBlack = black is null ? "no black level can be compared" : Off("black", black.BlackOffDn!.Value, black, "0.00");
        string ofWhite = white is null ? "no white level can be compared" : Off("white", white.WhiteOffDn!.Value, white, "0");
        return $"Furthest off: {ofBlack}; {ofWhite}. All figures go by what was measured.";
    }

    private static string Off(string what, double offDn, DeclaredLevel level, string format)
    {
        string size = Math.Abs(offDn).ToString(format, CultureInfo.InvariantCulture);
        if (size.All(c => c is '0' or '.'))
        {
            return $"declared {what} agrees with the measured one everywhere";
        }

        return string.Create(CultureInfo.InvariantCulture, $"declared {what} lies {size} DN {(offDn >= 0 ? "above" : "below")} the measured one (ISO {level.Iso}, {level.Channel})");
    }
}
