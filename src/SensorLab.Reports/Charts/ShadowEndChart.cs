using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>The shadow end at each criterion against ISO: EV to the right, ISO downwards.</summary>
internal static class ShadowEndChart
{
    private const float LeastHeight = 200;
    private const float HeightPerStop = 64;
    private const float MostHeight = 620;

    /// <summary>Builds the chart.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static PlotModel From(SensorProfile profile)
    {
        IsoProfile[] isos = [.. profile.IsoProfiles.OrderBy(iso => iso.Iso)];
        double[] criteria = [.. isos.SelectMany(iso => iso.Latitude.BelowEv).Select(end => end.Snr).Distinct().OrderDescending()];
        PlotSeries[] series = [.. criteria.Select((snr, index) => SeriesOf(isos, profile.Findings, snr, index, criteria.Length))];
        double[] evs = [.. series.SelectMany(s => s.Points).SelectMany(p => new[] { p.X, p.LowerX95 ?? p.X, p.UpperX95 ?? p.X })];
        ChartAxis vertical = IsoAxis(isos);
        var panel = new PlotPanel(vertical, Math.Clamp((float)(vertical.Maximum - vertical.Minimum) * HeightPerStop, LeastHeight, MostHeight), series)
        {
            Rules = [new PlotRule(true, 0, "middle grey", true)],
            Notes = [.. isos.SelectMany(iso => NotesOf(iso, profile.Findings))],
        };
        string sentence = Sentence(isos, profile.Findings);
        var heading = new ChartHeading(
            "Shadow end against ISO",
            ProfileText.Body(profile),
            sentence,
            $"EV with middle grey at 0 to the right, ISO downwards: for each criterion the EV at which total SNR of a pixel falls to it. {sentence}");
        return new PlotModel(heading, ChartAxis.Ev(evs.DefaultIfEmpty(-1).Min(), evs.DefaultIfEmpty(1).Max()), [panel]);
    }

    /// <summary>What is special about an ISO, in a few words.</summary>
    /// <param name="iso">The ISO.</param>
    /// <param name="findings">The profile's findings.</param>
    public static IEnumerable<string> SpecialOf(int iso, IReadOnlyList<Finding> findings) => findings
        .Where(f => f.Iso == iso)
        .Select(f => f.Code switch
        {
            FindingCode.GainSwitch => "second conversion gain from here on",
            FindingCode.GainDigital => "digital push of a lower ISO",
            FindingCode.GainShared => "same gain as the ISO above it here: pushed or pulled by the meter alone",
            _ => string.Empty,
        })
        .Where(words => words.Length > 0)
        .Distinct();

    // ISO rises downwards, as rows do on the latitude ruler.
    private static double RowOf(int iso) => -Math.Log2(iso);

    private static ChartAxis IsoAxis(IsoProfile[] isos)
    {
        int[] settings = [.. isos.Select(iso => iso.Iso).DefaultIfEmpty(100)];
        return new ChartAxis("ISO", string.Empty, AxisScale.Linear, RowOf(settings.Max()) - 0.45, RowOf(settings.Min()) + 0.45,
            [.. settings.Select(iso => new AxisTick(RowOf(iso), iso.ToString(CultureInfo.InvariantCulture)))]);
    }

    private static PlotSeries SeriesOf(IsoProfile[] isos, IReadOnlyList<Finding> findings, double snr, int index, int count)
    {
        PlotPoint[] points =
        [
            .. from iso in isos
               let mark = EvMark.Below(iso.Latitude.BelowEv.FirstOrDefault(end => end.Snr == snr)?.PerPixel)
               where mark is not null
               select PlotPoint.Of(mark.Value, RowOf(iso.Iso)) with { IsHollow = SpecialOf(iso.Iso, findings).Any() },
        ];
        string label = string.Create(CultureInfo.InvariantCulture, $"SNR {snr:0.##}");
        return new PlotSeries(label, snr == ShadowMark.DefaultSnr ? "ink" : StyleOf(index, count), points, PlotForm.JoinedPoints);
    }

    private static string StyleOf(int index, int count) => (((index * 5) / Math.Max(1, count)) + 1).ToString(CultureInfo.InvariantCulture);

    private static IEnumerable<AxisTick> NotesOf(IsoProfile iso, IReadOnlyList<Finding> findings)
    {
        string words = string.Join("; ", SpecialOf(iso.Iso, findings));
        return words.Length > 0 ? [new AxisTick(RowOf(iso.Iso), words)] : [];
    }

    private static string Sentence(IsoProfile[] isos, IReadOnlyList<Finding> findings)
    {
        (int Iso, double Ev)[] ends =
        [
            .. from iso in isos
               let mark = EvMark.Below(iso.Latitude.BelowEv.FirstOrDefault(end => end.Snr == ShadowMark.DefaultSnr)?.PerPixel)
               where mark is { IsBound: false }
               select (iso.Iso, mark.Value.Ev),
        ];
        string special = string.Concat(isos
            .Select(iso => (iso.Iso, Words: string.Join("; ", SpecialOf(iso.Iso, findings))))
            .Where(s => s.Words.Length > 0)
            .Select(s => string.Create(CultureInfo.InvariantCulture, $" ISO {s.Iso}: {s.Words}.")));
        return ends.Length switch
        {
            0 => "At SNR 10 no ISO has a measured shadow end." + special,
            1 => string.Create(CultureInfo.InvariantCulture, $"At SNR 10 the shadow end of ISO {ends[0].Iso} lies at {EvText.Signed(ends[0].Ev)} EV.") + special,
            _ => Course(ends) + special,
        };
    }

    private static string Course((int Iso, double Ev)[] ends)
    {
        (int low, double lowEv) = ends[0];
        (int high, double highEv) = ends[^1];
        double stops = Math.Log2((double)high / low);
        double lost = highEv - lowEv;
        string course = lost >= 0 ? "comes nearer to middle grey by" : "falls further below middle grey by";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"From ISO {low} to ISO {high}, {stops:0.0} stops, the shadow end at SNR 10 {course} {Math.Abs(lost):0.00} EV: {Math.Abs(lost) / stops:0.00} EV a stop.");
    }
}
