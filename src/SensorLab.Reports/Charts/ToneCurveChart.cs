using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>The preview's tone curve in each look, where it clips, and what the raw file holds beyond.</summary>
internal static class ToneCurveChart
{
    private const float Height = 380;
    private const double HighestCode = 255;
    private const int Styles = 5;

    /// <summary>Builds the chart.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">One of its ISOs.</param>
    public static PlotModel From(SensorProfile profile, IsoProfile iso)
    {
        PlotSeries[] series = [.. iso.Previews.Select((preview, index) => Curve(preview, index))];
        EvMark? bright = EvMark.Above(iso.Latitude.AboveEv);
        PlotSpan[] spans = [.. iso.Previews.Select((preview, index) => SpanOf(preview, bright, index)).OfType<PlotSpan>()];
        double[] evs = [.. series.SelectMany(s => s.Points).Select(p => p.X), .. bright is { } end ? new[] { end.Ev } : []];
        string sentence = Sentence(iso);
        string title = string.Create(CultureInfo.InvariantCulture, $"Preview tone curves at ISO {iso.Iso}");
        var heading = new ChartHeading(
            title,
            ProfileText.Body(profile),
            sentence,
            $"The camera's 8-bit preview: green's mean code against exposure in EV with middle grey at 0, one curve a look, and the bright end of the raw file. {sentence}");
        var rules = new List<PlotRule> { new(true, 0, "middle grey", true) };
        if (bright is { } raw)
        {
            rules.Add(new PlotRule(true, raw.Ev, "raw file's bright end", true));
        }

        var codes = new ChartAxis("Preview code", "0 to 255", AxisScale.Linear, 0, 290,
            [.. new[] { 0, 64, 128, 192, 255 }.Select(code => new AxisTick(code, code.ToString(CultureInfo.InvariantCulture)))]);
        rules.Add(new PlotRule(false, HighestCode, string.Empty, false));
        return new PlotModel(
            heading,
            ChartAxis.Ev(evs.DefaultIfEmpty(-1).Min(), evs.DefaultIfEmpty(1).Max()),
            [new PlotPanel(codes, Height, series) { Rules = rules, Spans = spans }]);
    }

    private static PlotSeries Curve(PreviewProfile preview, int index) => new(
        ForeignText.OneLine(preview.Look) is { Length: > 0 } look ? look : "look without a name",
        ((index % Styles) + 1).ToString(CultureInfo.InvariantCulture),
        [.. preview.ToneCurve.OrderBy(p => p.Ev).Select(p => new PlotPoint(p.Ev, p.Code))],
        PlotForm.JoinedPoints);

    private static PlotSpan? SpanOf(PreviewProfile preview, EvMark? bright, int index) =>
        preview.ClipEv?.Value is { } clip && bright is { } end && end.Ev > clip && preview.HiddenHeadroomEv?.Value is { } hidden && index < 3
            ? new PlotSpan(clip, end.Ev, HighestCode + 27 - (13 * index), string.Create(CultureInfo.InvariantCulture, $"{EvText.Signed(hidden)} EV hidden"))
            : null;

    private static string Sentence(IsoProfile iso)
    {
        PreviewProfile[] known = [.. iso.Previews.Where(p => p.ClipEv?.Value is not null)];
        if (known.Length == 0)
        {
            return iso.Previews.Count == 0 ? "There was no preview to compare." : "No preview's clip was found.";
        }

        PreviewProfile best = known[0];
        string others = known.Length == 1 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $" Of {known.Length} looks it shows the raw file's ends most truthfully.");
        string hidden = best.HiddenHeadroomEv?.Value is { } held
            ? string.Create(CultureInfo.InvariantCulture, $": the raw file holds {held:0.00} EV above that")
            : string.Empty;
        return $"In the look {ForeignText.OneLine(best.Look)} the preview clips at {EvText.MarkInSentence(EvMark.Above(best.ClipEv))}{hidden}.{others}";
    }
}
