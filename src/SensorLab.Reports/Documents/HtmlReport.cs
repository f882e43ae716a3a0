using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Pages;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>A report as one self-contained page.</summary>
internal sealed class HtmlReport
{
    private const int MostFramesNamed = 6;

    private static readonly HashSet<string> Anchors = [.. FigureDefinitions.All.Select(f => f.Anchor)];

    private readonly HtmlWriter _html;
    private readonly ReportDocument _report;

    private HtmlReport(HtmlWriter html, ReportDocument report) => (_html, _report) = (html, report);

    /// <summary>The page.</summary>
    /// <param name="report">The report.</param>
    /// <returns>UTF-8.</returns>
    public static byte[] Of(ReportDocument report) => PageShell.Document(
        $"{report.Title}: sensor profile report",
        html => new HtmlReport(html, report).WriteBody(),
        ["report.css"]);

    private void WriteBody()
    {
        _html.Leaf("a", "Skip to the answer", ("class", "skip"), ("href", "#answer"));
        WriteBar();
        using (_html.In("main"))
        {
            using (_html.In("header"))
            {
                WholeWords.Write(_html, "h1", _report.Title);
                foreach (string line in _report.Subtitles.Where(s => s.Length > 0))
                {
                    _html.Leaf("p", line, ("class", "subtitle"));
                }
            }

            foreach ((int index, ReportSection section) in _report.Sections.Index())
            {
                WriteSection(section, isFirst: index == 0);
            }
        }

        _html.Break();
    }

    // Stays at the top: both answers are a glance away wherever one reads.
    private void WriteBar()
    {
        using IDisposable nav = _html.In("nav", ("aria-label", "Report"));
        using (_html.In("p", ("class", "verdict")))
        {
            using (_html.In("a", ("href", "#answer")))
            {
                _html.Leaf("b", "Use it? ");
                _html.Text(_report.Review.CanUse switch { ProfileUse.Yes => "Yes", ProfileUse.OnlyWithCare => "With care", _ => "No" });
                _html.Leaf("b", " Shoot again? ");
                int count = _report.Review.ShootAgain.Count;
                _html.Text(count == 0 ? "Nothing" : count.ToString(CultureInfo.InvariantCulture) + (count == 1 ? " thing" : " things"));
            }
        }

        using IDisposable list = _html.In("ul");
        foreach (ReportSection section in _report.Sections.Skip(1))
        {
            using IDisposable item = _html.In("li");
            _html.Leaf("a", section.ShortTitle, ("href", "#" + section.Id));
        }
    }

    private void WriteSection(ReportSection section, bool isFirst)
    {
        _html.Break();
        using IDisposable element = _html.In("section", ("id", section.Id), ("aria-labelledby", section.Id + "-title"), ("class", isFirst ? "first" : null));
        _html.Leaf("h2", section.Title, ("id", section.Id + "-title"), ("class", isFirst ? "unseen" : null));
        foreach (ReportBlock block in section.Blocks)
        {
            Write(block);
        }
    }

    private void Write(ReportBlock block)
    {
        _html.Break();
        switch (block)
        {
            case WordsBlock words:
                _html.Leaf("p", words.Words, ("class", words.IsQuiet ? "quiet" : null));
                break;
            case HeadingBlock heading:
                _html.Leaf("h3", heading.Words);
                break;
            case ListBlock list:
                WriteList("ul", list.Items);
                break;
            case FactsBlock facts:
                WriteFacts(facts);
                break;
            case AnswersBlock answers:
                WriteAnswers(answers.Review);
                break;
            case BriefBlock brief:
                WriteBrief(brief.Lines);
                break;
            case FindingsBlock findings:
                WriteFindings(findings.Groups);
                break;
            case TableBlock table:
                HtmlTable.Write(_html, table.Table, Anchors);
                break;
            case ChartBlock chart:
                WriteChart(chart);
                break;
            case GlossaryBlock glossary:
                WriteGlossary(glossary);
                break;
            case OnDemandBlock more:
                WriteOnDemand(more.Summary, () =>
                {
                    foreach (ReportBlock inner in more.Blocks)
                    {
                        Write(inner);
                    }
                });
                break;
            default:
                throw new ArgumentException($"A page has no form for {block.GetType().Name}.", nameof(block));
        }
    }

    private void WriteGlossary(GlossaryBlock glossary)
    {
        using IDisposable list = _html.In("dl", ("class", "glossary"));
        foreach ((string term, string words) in glossary.Terms)
        {
            _html.Leaf("dt", term);
            _html.Leaf("dd", words);
        }

        foreach (FigureDefinition figure in glossary.Figures)
        {
            _html.Break();
            _html.Leaf("dt", figure.Title, ("id", figure.Anchor));
            _html.Leaf("dd", figure.Full);
        }
    }

    private void WriteOnDemand(string summary, Action content)
    {
        using IDisposable details = _html.In("details");
        _html.Leaf("summary", summary);
        content();
    }

    private void WriteList(string kind, IReadOnlyList<string> items)
    {
        using IDisposable list = _html.In(kind);
        foreach (string item in items)
        {
            _html.Leaf("li", item);
        }
    }

    private void WriteFacts(FactsBlock facts)
    {
        using IDisposable list = _html.In("dl", ("class", "facts"));
        foreach ((string name, string fact) in facts.Facts)
        {
            _html.Leaf("dt", name);
            _html.Leaf("dd", fact);
        }
    }

    private void WriteAnswers(ProfileReview review)
    {
        using IDisposable answers = _html.In("div", ("class", "answers"));
        using (_html.In("div"))
        {
            _html.Leaf("h3", "Can I use it?");
            _html.Leaf("p", review.Sentence);
        }

        using (_html.In("div"))
        {
            _html.Leaf("h3", "What should I shoot again?");
            if (review.ShootAgain.Count == 0)
            {
                _html.Leaf("p", "Nothing.");
            }
            else
            {
                WriteList("ul", review.ShootAgain);
            }
        }
    }

    private void WriteBrief(IReadOnlyList<string> lines)
    {
        using IDisposable list = _html.In("ul", ("class", "brief"));
        foreach (string line in lines)
        {
            using IDisposable item = _html.In("li");
            _html.Leaf("a", line, ("href", "#findings"));
        }
    }

    private void WriteFindings(IReadOnlyList<FindingGroup> groups)
    {
        using IDisposable box = _html.In("div", ("id", "findings"));
        if (groups.Count == 0)
        {
            _html.Leaf("p", "There are none.");
            return;
        }

        FindingGroup[] notes = [.. groups.Where(g => g.Severity == FindingSeverity.Note && !g.IsCompensated)];
        FindingGroup[] compensated = [.. groups.Where(g => g.IsCompensated)];
        WriteFindingList([.. groups.Except(notes).Except(compensated)]);
        if (compensated.Length > 0)
        {
            _html.Leaf("h4", "Compensated: the figures are free of it");
            WriteFindingList(compensated, isShort: true);
        }

        if (notes.Length > 0)
        {
            WriteOnDemand($"{notes.Length.ToString(CultureInfo.InvariantCulture)} {(notes.Length == 1 ? "note" : "notes")}: true and worth knowing, but the figures stand", () => WriteFindingList(notes));
        }
    }

    private void WriteFindingList(IReadOnlyList<FindingGroup> groups, bool isShort = false)
    {
        if (groups.Count == 0)
        {
            return;
        }

        using IDisposable list = _html.In("ul", ("class", isShort ? "findings short" : "findings"));
        foreach (FindingGroup group in groups)
        {
            using IDisposable item = _html.In("li", ("class", ProvenanceTables.SeverityWord(group.Severity)));
            if (isShort)
            {
                _html.Leaf("p", FindingWords.Short(group), ("class", "code"));
            }
            else
            {
                _html.Leaf("p", group.Heading, ("class", "code"));
                _html.Leaf("p", FindingWords.Message(group));
                _html.Leaf("p", group.Effect);
            }

            _html.Leaf("p", "Remedy: " + group.Remedy);
            if (!isShort && FindingWords.Frames(group, MostFramesNamed) is { Length: > 0 } frames)
            {
                _html.Leaf("p", frames, ("class", "quiet"));
            }
        }
    }

    private void WriteChart(ChartBlock chart)
    {
        using IDisposable figure = _html.In("figure", ("id", "chart-" + chart.Name));
        bool isRuler = chart.Drawing is LatitudeRulerDrawing;
        _html.Leaf("h3", chart.Drawing.Heading.Title, ("class", isRuler ? "unseen" : null));
        _html.Leaf("p", chart.Drawing.Heading.Sentence);
        PageChart.Write(_html, chart.Drawing, chart.Narrow, chart.Name);
        if (chart.Reading.Count > 0)
        {
            using IDisposable caption = _html.In("figcaption", ("class", "quiet"));
            _html.Text("What the words mean: ");
            foreach ((int index, FigureDefinition definition) in chart.Reading.Index())
            {
                _html.Text(index == 0 ? string.Empty : ", ");
                _html.Leaf("a", definition.Name, ("href", "#" + definition.Anchor));
            }
        }

        if (chart.Data.Rows.Count > 0)
        {
            WriteOnDemand("Its data as a table", () => HtmlTable.Write(_html, chart.Data, Anchors));
        }
    }
}
