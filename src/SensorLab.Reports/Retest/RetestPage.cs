using System.Globalization;
using System.Net;
using System.Text;
using SensorLab.Planning.Retest;
using SensorLab.Profiles;

namespace SensorLab.Reports.Retest;

/// <summary>The re-test as a page that needs nothing but its charts beside it: verdict, changes, charts, assumptions, every figure.</summary>
internal static class RetestPage
{
    private const string Style = """
        :root { color-scheme: light dark; }
        body { font: 16px/1.5 "DejaVu Sans", sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
        h1 { font-size: 1.5rem; } h2 { font-size: 1.15rem; margin-top: 2rem; }
        .verdict { font-size: 1.15rem; }
        img { max-width: 100%; height: auto; display: block; margin: 1rem 0; }
        table { border-collapse: collapse; width: 100%; font-size: 0.875rem; }
        th, td { text-align: left; padding: 0.2rem 0.6rem 0.2rem 0; border-bottom: 1px solid #8884; }
        tr.changed td { font-weight: bold; }
        @media print { details { display: block; } }
        """;

    /// <summary>The page's bytes.</summary>
    /// <param name="result">What the comparison came to.</param>
    /// <param name="charts">The charts by ISO: names without their ending, beside the page.</param>
    public static byte[] Of(RetestResult result, IReadOnlyList<(int Iso, string Name)> charts)
    {
        var page = new StringBuilder();
        string title = TitleOf(result);
        page.Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
            .Append(Inv($"<title>{Coded(title)}</title>\n<style>\n{Style}\n</style>\n</head>\n<body>\n<h1>{Coded(title)}</h1>\n"))
            .Append(Inv($"<p class=\"verdict\">{Coded(VerdictOf(result))}</p>\n"))
            .Append(Inv($"<p>Figures that need no meter: {RetestResultWriter.WordOf(result.MeterFreeVerdict)}. From the meter's zero on: {RetestResultWriter.WordOf(result.MeterTiedVerdict)}.</p>\n"));
        List(page, "What changed", result.Changes.Select(c => c.Message));
        List(page, "What to dial in on the second body", result.DialIn.Select(d => string.Create(
            CultureInfo.InvariantCulture,
            $"ISO {d.Iso}: {DifferenceText.Of(d.CompensationEv, MarginUnit.Ev)} of exposure; the nearest third is {d.NearestThirdEv:+0.00;-0.00;0.00}.")));
        foreach ((int iso, string name) in charts)
        {
            page.Append(Inv($"<picture><source srcset=\"{name}-dark.svg\" media=\"(prefers-color-scheme: dark)\"><img src=\"{name}.svg\" alt=\"Differences at ISO {iso} with their intervals, in margins\"></picture>\n"));
        }

        List(page, "What the verdict assumes", result.Assumes);
        List(page, "What would decide", result.Figures.Where(f => f.Verdict == RetestVerdict.Undecided).Select(FurtherOf).Distinct());
        Table(page, result.Figures);
        page.Append("</body>\n</html>\n");
        return Encoding.UTF8.GetBytes(page.ToString());
    }

    private static string TitleOf(RetestResult result)
    {
        (BodyIdentity before, BodyIdentity after) = (result.BodyBefore, result.BodyAfter);
        string model = string.Join(' ', new[] { before.Maker, before.Model }.OfType<string>());
        string sides = result.IsTwoBodies
            ? $"serial number {before.SerialNumber} beside {after.SerialNumber}"
            : $"firmware {before.Firmware ?? "unknown"} before, {after.Firmware ?? "unknown"} after";
        return $"{(model.Length > 0 ? model : "Unnamed body")}: {sides}";
    }

    private static string VerdictOf(RetestResult result) => result.Verdict switch
    {
        RetestVerdict.Changed => "Changed.",
        RetestVerdict.Undecided => "Undecided: some differences may or may not matter.",
        _ => "Equivalent: every figure judged lies within its margin.",
    };

    private static string FurtherOf(ComparedFigure figure) => figure.FurtherPairs is { } pairs
        ? string.Create(CultureInfo.InvariantCulture, $"{FigureName.WordsOf(figure.Address.Name)}, ISO {figure.Address.Iso}{(figure.Address.Channel is { } c ? $", {c}" : string.Empty)}: {pairs} further pairs a level of the later set, 9 times in 10.")
        : $"{FigureName.WordsOf(figure.Address.Name)}: {figure.FurtherPairsReason}";

    private static void List(StringBuilder page, string heading, IEnumerable<string> items)
    {
        string[] all = [.. items];
        if (all.Length > 0)
        {
            page.Append(Inv($"<h2>{Coded(heading)}</h2>\n<ul>\n"));
            foreach (string item in all)
            {
                page.Append(Inv($"<li>{Coded(item)}</li>\n"));
            }

            page.Append("</ul>\n");
        }
    }

    private static void Table(StringBuilder page, IReadOnlyList<ComparedFigure> figures)
    {
        page.Append(Inv($"<details>\n<summary>All {figures.Count} figures that both profiles hold</summary>\n<table>\n<tr><th>ISO</th><th>channel</th><th>figure</th><th>after − before</th><th>margin</th><th>verdict</th></tr>\n"));
        foreach (ComparedFigure figure in figures)
        {
            string verdict = RetestResultWriter.WordOf(figure.Verdict);
            string margin = figure.Margin is { } size ? DifferenceText.OfMargin(size, figure.Unit) : "–";
            page.Append(Inv($"<tr class=\"{verdict.Replace(' ', '-')}\"><td>{figure.Address.Iso}</td><td>{Coded(figure.Address.Channel ?? string.Empty)}</td><td>{Coded(FigureName.WordsOf(figure.Address.Name))}</td><td>{DifferenceText.Of(figure.Difference, figure.Unit)}</td><td>{margin}</td><td>{verdict}</td></tr>\n"));
        }

        page.Append("</table>\n<p>± is half the 95 % interval of one figure; verdicts hold over all figures at once.</p>\n</details>\n");
    }

    // Names come from files: nothing of them may become markup or steer the page.
    private static string Coded(string text) => WebUtility.HtmlEncode(string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c)));

    private static string Inv(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
