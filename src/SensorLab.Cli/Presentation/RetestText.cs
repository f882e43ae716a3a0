using System.Globalization;
using SensorLab.Retest;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Cli.Presentation;

/// <summary>What came of a comparison as text in 80 columns: the verdict, what changed, every kind of figure, what is assumed.</summary>
internal static class RetestText
{
    private const int NameWidth = 28;

    private const string Indent = "  ";

    private const string Spans = "span from shadow end to clip";

    public static IReadOnlyList<string> Lines(RetestResult result) =>
    [
        .. WrappedText.Lines(Printable(HeadingOf(result))),
        string.Empty,
        .. VerdictLines(result),
        .. ChangeLines(result),
        string.Empty,
        "                            Where      Most different   Margin  Verdict",
        .. result.Figures.Where(f => f.Verdict != RetestVerdict.NotJudged).GroupBy(f => f.Address.Name).Select(g => Row([.. g])),
        string.Empty,
        "± is half the interval that the verdict goes by: 95 % for all figures at once.",
        "The least sure figure of its kind is shown.",
        string.Empty,
        .. MondayLines(result.OnMonday),
        .. DialInLines(result),
        string.Empty,
        "The verdict assumes:",
        .. result.Assumes.SelectMany(a => WrappedText.Lines(Printable(a), "- ", Indent)),
    ];

    private static string HeadingOf(RetestResult result)
    {
        (BodyIdentity before, BodyIdentity after) = (result.BodyBefore, result.BodyAfter);
        string model = string.Join(' ', new[] { before.Maker, before.Model }.OfType<string>());
        string name = model.Length > 0 ? model : "Unnamed body";
        return result.IsTwoBodies
            ? $"{name}: serial number {before.SerialNumber} (firmware {before.Firmware ?? "unknown"}) beside {after.SerialNumber} (firmware {after.Firmware ?? "unknown"})"
            : $"{name}{(before.SerialNumber is null ? string.Empty : $", serial number {before.SerialNumber}")}: firmware {before.Firmware ?? "unknown"} before, {after.Firmware ?? "unknown"} after";
    }

    private static IEnumerable<string> VerdictLines(RetestResult result)
    {
        string verdict = result.Verdict switch
        {
            RetestVerdict.Changed => "Changed: " + string.Join("; ", PlacesOf(result, RetestVerdict.Changed).Concat(result.Changes.Count > 0 && !PlacesOf(result, RetestVerdict.Changed).Any() ? ["see below"] : [])),
            RetestVerdict.Undecided => "Undecided: " + string.Join("; ", PlacesOf(result, RetestVerdict.Undecided)),
            _ => "Equivalent: every figure judged lies within its margin",
        };
        foreach (string line in WrappedText.Lines(Printable(verdict) + ".", string.Empty, Indent))
        {
            yield return line;
        }

        yield return $"Figures that need no meter: {RetestResultWriter.WordOf(result.MeterFreeVerdict)}. From the meter's zero on: {RetestResultWriter.WordOf(result.MeterTiedVerdict)}.";
        if (result.ModeDifferences.Count > 0)
        {
            foreach (string line in WrappedText.Lines(Printable($"The recording modes differ ({string.Join("; ", result.ModeDifferences)}): not laid to the firmware.")))
            {
                yield return line;
            }
        }
    }

    /// <summary>Which kinds of figure have a verdict, and at which ISOs.</summary>
    private static IEnumerable<string> PlacesOf(RetestResult result, RetestVerdict verdict) => result.Figures
        .Where(f => f.Verdict == verdict)
        .GroupBy(f => KindOf(f.Address.Name))
        .OrderBy(g => g.First().IsMeterTied || g.Key == Spans)
        .Select(g => $"{g.Key} at ISO {string.Join(", ", g.Select(f => f.Address.Iso).Distinct().Order().Select(i => i.ToString(CultureInfo.InvariantCulture)))}");

    /// <summary>Shadow ends of all criteria are one kind, and so are their spans.</summary>
    private static string KindOf(string name) => name.StartsWith("belowEv", StringComparison.Ordinal)
        ? name.EndsWith("spanEv", StringComparison.Ordinal) ? Spans : "shadow end"
        : FigureName.WordsOf(name);

    private static IEnumerable<string> ChangeLines(RetestResult result) => result.Changes.Count == 0 ? [] :
    [
        string.Empty,
        .. result.Changes.SelectMany(c => WrappedText.Lines(Printable(c.Message), c.Code + ": ", Indent)),
    ];

    private static string Row(ComparedFigure[] figures)
    {
        ComparedFigure most = figures.OrderBy(f => RankOf(f.Verdict)).ThenByDescending(f => Reach(f)).First();
        string name = Printable(FigureName.WordsOf(most.Address.Name));
        string cut = name.Length < NameWidth ? name : name[..(NameWidth - 2)] + "…";
        string where = string.Create(CultureInfo.InvariantCulture, $"{most.Address.Iso} {most.Address.Channel}").Trim();
        int same = figures.Count(f => f.Verdict == most.Verdict);
        string share = most.Verdict == RetestVerdict.Equivalent ? string.Empty : string.Create(CultureInfo.InvariantCulture, $" {same}/{figures.Length}");
        return $"{cut.PadRight(NameWidth)}{where,-9}  {DifferenceText.Of(most),-16} {DifferenceText.OfMargin(most.Margin!.Value, most.Unit),-7} {RetestResultWriter.WordOf(most.Verdict)}{share}";
    }

    private static int RankOf(RetestVerdict verdict) => verdict switch
    {
        RetestVerdict.Changed => 0,
        RetestVerdict.Undecided => 1,
        _ => 2,
    };

    /// <summary>How far the interval reaches, in margins.</summary>
    private static double Reach(ComparedFigure figure) => figure.Difference is { Value: not null } d
        ? Math.Max(Math.Abs(d.Lower95 ?? 0), Math.Abs(d.Upper95 ?? 0)) / figure.Margin!.Value
        : double.PositiveInfinity;

    private static IEnumerable<string> MondayLines(OnMonday monday) =>
    [
        "On Monday",
        .. WrappedText.Lines(Printable(monday.Sentence)),
        .. monday.Tones.SelectMany(t => WrappedText.Lines(Printable(t), "- ", Indent)),
        .. monday.Ways.Count > 0 ? ["What would decide what is open:"] : Array.Empty<string>(),
        .. monday.Ways.SelectMany(w => WrappedText.Lines(Printable(w), "- ", Indent)),
        .. monday.CannotDecide is { } limit ? WrappedText.Lines(Printable(limit)) : [],
    ];

    private static IEnumerable<string> DialInLines(RetestResult result)
    {
        if (result.DialIn.Count > 0)
        {
            yield return string.Empty;
            yield return Printable($"To keep the same room above grey, dial in on {result.BodyAfter.SerialNumber}:");
            foreach (DialIn dial in result.DialIn)
            {
                yield return string.Create(
                    CultureInfo.InvariantCulture,
                    $"{dial.Iso,6}  {DifferenceText.Of(dial.CompensationEv, MarginUnit.Ev)} of exposure (nearest third: {dial.NearestThirdEv:+0.00;-0.00;0.00})");
            }
        }
    }

    private static string Printable(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));
}
