using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Pages;
using SensorLab.Reports.Shelves;

namespace SensorLab.Reports;

/// <summary>Writes the pages of a shelf: a body's history, a model's bodies; each one offline file.</summary>
/// <remarks>The same figures give the same bytes, on a system with the same font.</remarks>
public static class ShelfPageWriter
{
    private const int MostChanges = 4;

    /// <summary>A body's history: each kind of figure over time with its intervals, firmware and verdicts marked, and as a table.</summary>
    /// <param name="body">The body's name, from anywhere.</param>
    /// <param name="figures">The figures.</param>
    /// <returns>UTF-8 HTML.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static byte[] History(string body, IReadOnlyList<CourseFigure> figures) => Page(
        $"History: {body}",
        "Intervals are 95 %: those that the body's own value lies in. The verdict between neighbours is the re-test's, by an interval of its own: 95 % for all figures of that one comparison at once. Upright lines stand where the firmware changed.",
        "Against the one before",
        figures,
        figure => CourseChart.OverTime(figure, body, ChangesOf(figure)));

    /// <summary>A model's bodies: each kind of figure over the bodies, with what is expected of one that nobody measured, and as a table.</summary>
    /// <param name="model">The model's name, from anywhere.</param>
    /// <param name="figures">The figures, each of one line.</param>
    /// <returns>UTF-8 HTML.</returns>
    /// <exception cref="FontsMissingException">The system has no font with letters.</exception>
    public static byte[] Model(string model, IReadOnlyList<CourseFigure> figures) => Page(
        $"Bodies of the {model}",
        "Each body by its newest profile. Between the broken lines a body that nobody measured lies 19 times in 20, if the bodies here are a fair sample of the model; what single sets differ by is in it. A body that stands out does so by chance once in 20 such pages.",
        "Beside the others",
        figures,
        figure => CourseChart.OverBodies(figure, model, OutOf(figure)));

    private static byte[] Page(string title, string words, string last, IReadOnlyList<CourseFigure> figures, Func<CourseFigure, PlotModel> chart)
    {
        var font = ChartFont.OfThisSystem();
        return PageShell.Document(title, html =>
        {
            using IDisposable main = html.In("main");
            using (html.In("header"))
            {
                WholeWords.Write(html, "h1", title);
                html.Leaf("p", words, ("class", "quiet"));
            }

            foreach ((int index, CourseFigure figure) in figures.Index())
            {
                PlotModel model = chart(figure);
                html.Leaf("h2", model.Heading.Title);
                html.Leaf("p", model.Heading.Sentence);
                using (html.In("figure"))
                {
                    PageChart.Write(html, new PlotDrawing(model, font, headed: false), new PlotDrawing(model, font, headed: false, narrow: true), string.Create(CultureInfo.InvariantCulture, $"course-{index}"));
                }

                WriteTable(html, figure, last);
                html.Break();
            }
        }, ["report.css"]);
    }

    private static void WriteTable(HtmlWriter html, CourseFigure figure, string last)
    {
        using IDisposable details = html.In("details");
        html.Leaf("summary", string.Create(CultureInfo.InvariantCulture, $"All {figure.Lines.Sum(l => l.Marks.Count)} values"));
        using IDisposable frame = html.In("div", ("class", "scroll"), ("tabindex", "0"), ("role", "group"), ("aria-label", figure.Title));
        using IDisposable table = html.In("table", ("class", "dense"));
        html.Leaf("caption", figure.Title);
        using (html.In("thead"))
        {
            using IDisposable row = html.In("tr");
            foreach (string title in new[] { "ISO", "Profile", "Value", last })
            {
                html.Leaf("th", title, ("scope", "col"), ("class", "words"));
            }
        }

        using IDisposable body = html.In("tbody");
        foreach ((CourseLine line, CourseMark mark) in figure.Lines.SelectMany(l => l.Marks.Select(m => (l, m))))
        {
            html.Break();
            using IDisposable row = html.In("tr");
            html.Leaf("th", line.Label, ("scope", "row"), ("class", "words"));
            foreach (string cell in new[] { mark.Name, ValueOf(figure, mark.Figure, string.Empty), mark.Words })
            {
                html.Leaf("td", cell, ("class", "words"));
            }
        }
    }

    private static string ChangesOf(CourseFigure figure)
    {
        (CourseLine Line, CourseMark Mark)[] changed = [.. figure.Lines.SelectMany(l => l.Marks.Where(m => m.IsMarked).Select(m => (l, m)))];
        string left = figure.Lines.Count > CourseChart.MostLines
            ? string.Create(CultureInfo.InvariantCulture, $" The picture shows the first {CourseChart.MostLines} of {figure.Lines.Count} ISOs, the table all.")
            : string.Empty;
        string untimed = figure.Lines.Any(l => l.Marks.Any(m => m.Time is null)) ? " Profiles without a time are in the table alone." : string.Empty;
        string[] changes = [.. changed.GroupBy(c => c.Mark.Name).Select(c => $"{c.Key}: {string.Join(", ", c.Select(one => one.Line.Label))}")];
        int open = figure.Lines.Sum(l => l.Marks.Count(m => m.IsOpen));
        string found = changes.Length > 0 ? $"Changed on {string.Join("; ", changes.Take(MostChanges))}{(changes.Length > MostChanges ? " and more" : string.Empty)}."
            : open == 0 ? "No two neighbours differ by more than matters."
            : "No change was found.";
        string undecided = open > 0 ? string.Create(CultureInfo.InvariantCulture, $" Of {open} comparison{(open == 1 ? string.Empty : "s")} nothing is decided: the table says why.") : string.Empty;
        return found + undecided + left + untimed;
    }

    /// <summary>A figure as screens show it: stops to a hundredth, their interval rounded up.</summary>
    private static string ValueOf(CourseFigure figure, Figure value, string unit)
    {
        Figure shown = CourseChart.Shown(figure, value);
        if (!figure.IsEv || shown is not { Value: { } ev, Lower95: { } lower, Upper95: { } upper })
        {
            return FigureText.WithInterval(shown, unit.Trim());
        }

        string half = FigureText.RoundedUp(Math.Max(upper - ev, ev - lower), 2).ToString("F2", CultureInfo.InvariantCulture);
        string signed = EvText.Signed(ev);
        return $"{(figure.IsUp || figure.IsDown ? signed : signed.TrimStart('+'))} ±{half}{unit}";
    }

    private static string OutOf(CourseFigure figure)
    {
        CourseLine line = figure.Lines[0];
        string expected = line.Expected is { } one ? $"{line.Label}: a body that nobody measured is expected at {ValueOf(figure, one, figure.IsEv ? " EV" : string.Empty)}." : $"{line.Label}: one body, from which nothing follows for another.";
        return expected + (!figure.IsOfFew ? WhoOf(line) : line.Expected is null ? string.Empty : " The bodies are too few to tell whether one stands out.");
    }

    private static string WhoOf(CourseLine line)
    {
        string[] marked = [.. line.Marks.Where(m => m.IsMarked).Select(m => m.Name)];
        return marked.Length == 0 ? " No body stands out." : $" {string.Join(", ", marked.Take(5))}{(marked.Length > 5 ? " and more" : string.Empty)} {(marked.Length == 1 ? "stands" : "stand")} out.";
    }
}
