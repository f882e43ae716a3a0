using System.Globalization;
using System.Text;

namespace SensorLab.AccuracyStudy;

/// <summary>The study as Markdown: a pooled table a part, and one a body.</summary>
/// <param name="parts">The parts with their bodies.</param>
internal sealed class StudyTable(IReadOnlyList<(string Name, IReadOnlyList<BodyStudy> Bodies)> parts)
{
    private const string Header = """
        | figure | estimates | bias (%) | bias / u | rms error / u | rms error / bound | coverage (%) | half-width (EV) | misses |
        | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | --- |
        """;

    /// <summary>Pooled figures that miss a goal.</summary>
    public int Misses => parts.Sum(p => Table(p.Bodies).Misses);

    /// <summary>Every table: the parts', then each body's.</summary>
    public string ToMarkdown()
    {
        IEnumerable<(string Title, string Text)> bodies = parts
            .SelectMany(p => p.Bodies)
            .Select(b => (Text($"{b.Body.Name} ({b.Sets} sets)"), Table([b]).Text));
        return string.Concat(parts.Select(p => (p.Name, Table(p.Bodies).Text)).Concat(bodies).Select(t => $"## {t.Item1}\n\n{t.Item2}\n"));
    }

    /// <summary>What <c>RESULTS.md</c> keeps: the parts' tables, and the bodies that miss a goal that their part may meet.</summary>
    /// <param name="isWhole">Whether these are all parts: of some alone, what the pools hide stands under their own tables.</param>
    public IEnumerable<(string Title, string Text)> Sections(bool isWhole)
    {
        foreach ((string name, IReadOnlyList<BodyStudy> bodies) in parts)
        {
            yield return (name, isWhole ? Table(bodies).Text : $"{Table(bodies).Text}\n{HiddenMisses()}");
        }

        if (isWhole)
        {
            yield return ("What the pools hide", HiddenMisses());
        }
    }

    private string HiddenMisses()
    {
        var rows = new StringBuilder();
        int count = 0;
        foreach (BodyStudy body in parts.SelectMany(p => p.Bodies))
        {
            foreach (StudyFigure figure in StudyFigure.All)
            {
                count += AppendRows(rows, figure, body.TalliesOf(figure), prefix: $"{body.Body.Name}: ", onlyMisses: true);
            }
        }

        return $"{Text($"Figures of single bodies that miss a goal: {count}. A body has a quarter of a pool's estimates or fewer, so that some miss by chance.")}\n\n{Header}\n{rows}";
    }

    private static (string Text, int Misses) Table(IReadOnlyList<BodyStudy> bodies)
    {
        var text = new StringBuilder();
        text.AppendLine(Header);
        int misses = StudyFigure.All.Sum(figure => AppendRows(text, figure, [.. bodies.SelectMany(b => b.TalliesOf(figure))]));
        return (text.ToString(), misses);
    }

    private static int AppendRows(StringBuilder text, StudyFigure figure, IReadOnlyList<FigureTally> tallies, string prefix = "", bool onlyMisses = false)
    {
        int misses = 0;
        foreach (bool atLimit in new[] { false, true })
        {
            if (FigureSummary.Of(tallies, atLimit) is { } summary)
            {
                IReadOnlyList<string> missed = StudyGoals.MissesOf(figure, summary);
                misses += missed.Count;
                if (!onlyMisses || missed.Count > 0)
                {
                    text.AppendLine(Row(prefix + figure.Name, figure.IsEv, summary, missed));
                }
            }
        }

        int absent = tallies.Where(t => t.Intervals == 0).Sum(t => t.Absent);
        if (absent > 0 && !onlyMisses)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"| {figure.Name} | never given in {absent} | | | | | | | |");
        }

        return misses;
    }

    private static string Row(string title, bool isEv, FigureSummary s, IReadOnlyList<string> missed)
    {
        string name = s.AtLimit ? $"{title} (at a limit)" : title;
        string absent = s.Absent > 0 ? Text($" ({s.Absent} absent)") : string.Empty;
        string bound = s.ErrorOverBound is { } ratio ? Text($"{ratio:0.000}") : "–";
        string bias = double.IsFinite(s.RelativeBias) ? Text($"{100 * s.RelativeBias:0.000}") : "–";
        string width = isEv ? Text($"{s.MeanHalfWidth:0.000}") : "–";
        string coverage = Text($"{100 * s.Coverage:0.0} ± {100 * s.CoverageLimit:0.0}");
        return Text($"| {name} | {s.Intervals}{absent} | {bias} | {s.BiasOverUncertainty:0.00} | {s.ErrorOverUncertainty:0.000} | {bound} | {coverage} | {width} | {string.Join(", ", missed)} |");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
