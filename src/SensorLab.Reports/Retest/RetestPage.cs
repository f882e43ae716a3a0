using System.Globalization;
using SensorLab.Retest;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Pages;

namespace SensorLab.Reports.Retest;

/// <summary>The re-test as one self-contained page: verdict, changes, the differences drawn, assumptions, every figure.</summary>
internal sealed class RetestPage
{
    private readonly HtmlWriter _html;
    private readonly RetestResult _result;

    private RetestPage(HtmlWriter html, RetestResult result) => (_html, _result) = (html, result);

    /// <summary>The page.</summary>
    /// <param name="result">What the comparison came to.</param>
    /// <param name="charts">The differences of each ISO, without a heading of their own.</param>
    /// <returns>UTF-8.</returns>
    public static byte[] Of(RetestResult result, IReadOnlyList<(int Iso, RetestDrawing Wide, RetestDrawing Narrow)> charts) =>
        PageShell.Document(TitleOf(result), html => new RetestPage(html, result).Write(charts), ["report.css"]);

    private void Write(IReadOnlyList<(int Iso, RetestDrawing Wide, RetestDrawing Narrow)> charts)
    {
        using IDisposable main = _html.In("main");
        using (_html.In("header"))
        {
            WholeWords.Write(_html, "h1", TitleOf(_result));
        }

        _html.Leaf("p", VerdictOf(_result.Verdict));
        _html.Leaf("p", $"Figures that need no meter: {RetestResultWriter.WordOf(_result.MeterFreeVerdict)}. From the meter's zero on: {RetestResultWriter.WordOf(_result.MeterTiedVerdict)}.");
        if (_result.ModeDifferences.Count > 0)
        {
            _html.Leaf("p", $"The recording modes differ ({string.Join("; ", _result.ModeDifferences)}): nothing here is laid to the firmware.");
        }

        WriteMonday(_result.OnMonday);
        WriteList("What changed", _result.Changes.Select(c => c.Message));
        WriteList("What to dial in on the second body", _result.DialIn.Select(DialOf));
        foreach ((int iso, RetestDrawing wide, RetestDrawing narrow) in charts)
        {
            WriteChart(iso, wide, narrow);
        }

        WriteList("What would decide what is open", _result.OnMonday.Ways);
        WriteList("What the verdict assumes", _result.Assumes);
        WriteTable();
    }

    private void WriteMonday(OnMonday monday)
    {
        WriteList("On Monday", monday.Tones.Prepend(monday.Sentence));
        if (monday.CannotDecide is { } limit)
        {
            _html.Leaf("p", limit);
        }
    }

    private void WriteChart(int iso, RetestDrawing wide, RetestDrawing narrow)
    {
        _html.Leaf("h2", wide.Heading.Title);
        _html.Leaf("p", wide.Heading.Sentence);
        using (_html.In("figure"))
        {
            PageChart.Write(_html, wide, narrow, string.Create(CultureInfo.InvariantCulture, $"retest-iso-{iso}"));
        }

        _html.Break();
    }

    private void WriteList(string heading, IEnumerable<string> items)
    {
        string[] all = [.. items];
        if (all.Length == 0)
        {
            return;
        }

        _html.Leaf("h2", heading);
        using IDisposable list = _html.In("ul");
        foreach (string item in all)
        {
            _html.Break();
            _html.Leaf("li", item);
        }
    }

    private void WriteTable()
    {
        _html.Leaf("h2", "Every figure");
        using IDisposable details = _html.In("details");
        _html.Leaf("summary", string.Create(CultureInfo.InvariantCulture, $"All {_result.Figures.Count} figures that both profiles hold"));
        _html.Leaf("p", "± is half the interval that the verdict goes by: 95 % for all figures at once.");
        using IDisposable frame = _html.In("div", ("class", "scroll"), ("tabindex", "0"), ("role", "group"), ("aria-label", "Every figure"));
        using IDisposable table = _html.In("table", ("class", "dense"));
        _html.Leaf("caption", "Every figure that both profiles hold");
        using (_html.In("thead"))
        {
            using IDisposable row = _html.In("tr");
            _html.Leaf("th", "ISO", ("scope", "col"));
            foreach (string title in new[] { "Channel", "Figure", "After − before", "Margin", "Verdict" })
            {
                _html.Leaf("th", title, ("scope", "col"), ("class", "words"));
            }
        }

        using IDisposable body = _html.In("tbody");
        foreach (ComparedFigure figure in _result.Figures)
        {
            WriteRow(figure);
        }
    }

    private void WriteRow(ComparedFigure figure)
    {
        _html.Break();
        using IDisposable row = _html.In("tr");
        _html.Leaf("th", figure.Address.Iso.ToString(CultureInfo.InvariantCulture), ("scope", "row"));
        string[] cells =
        [
            figure.Address.Channel ?? "all",
            FigureName.WordsOf(figure.Address.Name),
            DifferenceText.Of(figure),
            figure.Margin is { } size ? DifferenceText.OfMargin(size, figure.Unit) : "–",
            RetestResultWriter.WordOf(figure.Verdict),
        ];
        foreach (string cell in cells)
        {
            _html.Leaf("td", cell, ("class", "words"));
        }
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

    private static string VerdictOf(RetestVerdict verdict) => verdict switch
    {
        RetestVerdict.Changed => "Changed: some figures differ by more than matters.",
        RetestVerdict.Undecided => "Undecided: some differences may or may not matter.",
        _ => "Equivalent: every figure judged lies within its margin.",
    };

    private static string DialOf(DialIn dial) => string.Create(
        CultureInfo.InvariantCulture,
        $"ISO {dial.Iso}: {DifferenceText.Of(dial.CompensationEv, MarginUnit.Ev)} of exposure; the nearest third is {dial.NearestThirdEv:+0.00;-0.00;0.00}.");
}
