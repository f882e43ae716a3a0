using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Pages;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>A report as one self-contained page.</summary>
internal sealed class HtmlReport
{
    // Notes beyond these are shown on demand: warnings must not drown in them.
    private const int MostOpenNotes = 3;
    private const int MostFramesNamed = 6;

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
                _html.Leaf("h1", _report.Title);
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
            case FindingsBlock findings:
                WriteFindings(findings.Findings);
                break;
            case TableBlock table:
                HtmlTable.Write(_html, table.Table);
                break;
            case ChartBlock chart:
                WriteChart(chart);
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

    private void WriteFindings(IReadOnlyList<Finding> findings)
    {
        if (findings.Count == 0)
        {
            _html.Leaf("p", "There are none.");
            return;
        }

        Finding[] notes = [.. findings.Where(f => f.Severity == FindingSeverity.Note)];
        bool isFolded = notes.Length > MostOpenNotes;
        WriteFindingList(isFolded ? [.. findings.Except(notes)] : findings);
        if (isFolded)
        {
            WriteOnDemand($"{notes.Length.ToString(CultureInfo.InvariantCulture)} notes: true and worth knowing, but the figures stand", () => WriteFindingList(notes));
        }
    }

    private void WriteFindingList(IReadOnlyList<Finding> findings)
    {
        if (findings.Count == 0)
        {
            return;
        }

        using IDisposable list = _html.In("ul", ("class", "findings"));
        foreach (Finding finding in findings)
        {
            using IDisposable item = _html.In("li", ("class", ProvenanceTables.SeverityWord(finding.Severity)));
            using (_html.In("p", ("class", "code")))
            {
                _html.Leaf("b", ProvenanceTables.SeverityWord(finding.Severity));
                _html.Text(" " + FindingWords.Place(finding));
            }

            _html.Leaf("p", ForeignText.OneLine(finding.Message));
            _html.Leaf("p", "Remedy: " + ForeignText.OneLine(finding.Remedy));
            if (FindingWords.Frames(finding, MostFramesNamed) is { Length: > 0 } frames)
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
        using (_html.In("div", ("class", "scroll"), ("tabindex", "0"), ("role", "group"), ("aria-label", chart.Drawing.Heading.Title)))
        {
            _html.Markup(PageChart.Markup(chart.Drawing, chart.Name));
        }

        if (chart.Reading.Count > 0)
        {
            using IDisposable caption = _html.In("figcaption");
            foreach (FigureDefinition definition in chart.Reading)
            {
                using IDisposable line = _html.In("p", ("class", "quiet"));
                _html.Leaf("b", definition.Name);
                _html.Text(": " + definition.Full);
            }
        }

        if (chart.Data.Rows.Count > 0)
        {
            WriteOnDemand("Its data as a table", () => HtmlTable.Write(_html, chart.Data));
        }
    }
}
