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
    public int Misses { get; private set; }

    public string ToMarkdown()
    {
        var text = new StringBuilder();
        foreach ((string name, IReadOnlyList<BodyStudy> bodies) in parts)
        {
            Misses += AppendTable(text, name, bodies);
        }

        foreach (BodyStudy body in parts.SelectMany(p => p.Bodies))
        {
            AppendTable(text, Text($"{body.Body.Name} ({body.Sets} sets)"), [body]);
        }

        return text.ToString();
    }

    private static int AppendTable(StringBuilder text, string title, IReadOnlyList<BodyStudy> bodies)
    {
        text.AppendLine(CultureInfo.InvariantCulture, $"## {title}").AppendLine().AppendLine(Header);
        int misses = StudyFigure.All.Sum(figure => AppendRows(text, figure, [.. bodies.SelectMany(b => b.TalliesOf(figure))]));
        text.AppendLine();
        return misses;
    }

    private static int AppendRows(StringBuilder text, StudyFigure figure, IReadOnlyList<FigureTally> tallies)
    {
        int misses = 0;
        foreach (bool atLimit in new[] { false, true })
        {
            if (FigureSummary.Of(tallies, atLimit) is { } summary)
            {
                IReadOnlyList<string> missed = StudyGoals.MissesOf(figure, summary);
                misses += missed.Count;
                text.AppendLine(Row(figure, summary, missed));
            }
        }

        int absent = tallies.Where(t => t.Intervals == 0).Sum(t => t.Absent);
        if (absent > 0)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"| {figure.Name} | never given in {absent} | | | | | | | |");
        }

        return misses;
    }

    private static string Row(StudyFigure figure, FigureSummary s, IReadOnlyList<string> missed)
    {
        string name = s.AtLimit ? $"{figure.Name} (at a limit)" : figure.Name;
        string absent = s.Absent > 0 ? Text($" ({s.Absent} absent)") : string.Empty;
        string bound = s.ErrorOverBound is { } ratio ? Text($"{ratio:0.000}") : "–";
        string bias = double.IsFinite(s.RelativeBias) ? Text($"{100 * s.RelativeBias:0.000}") : "–";
        string width = figure.IsEv ? Text($"{s.MeanHalfWidth:0.000}") : "–";
        string coverage = Text($"{100 * s.Coverage:0.0} ± {100 * s.CoverageLimit:0.0}");
        return Text($"| {name} | {s.Intervals}{absent} | {bias} | {s.BiasOverUncertainty:0.00} | {s.ErrorOverUncertainty:0.000} | {bound} | {coverage} | {width} | {string.Join(", ", missed)} |");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
