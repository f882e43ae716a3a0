using SensorLab.Profiles;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;
using SkiaSharp;

namespace SensorLab.Reports.Documents;

/// <summary>A report on A4 paper: charts as vectors, text that can be selected.</summary>
internal sealed class PdfReport
{
    private const float TitleSize = 20;
    private const float SectionSize = 15;
    private const float HeadingSize = 11;
    private const float TextSize = 9;
    private const float SmallSize = 7.5f;
    private const float FactColumn = 110;
    private const float HeadingRoom = 8;
    private const float FindingRoom = 30;

    // A page of names; the profile and tables/findings.csv have them all.
    private const int MostFramesNamed = 300;
    private static readonly ChartTheme Theme = ChartTheme.Light;

    private readonly ReportDocument _report;
    private readonly PageFlow _flow;
    private readonly CancellationToken _cancellation;

    private PdfReport(ReportDocument report, PageFlow flow, CancellationToken cancellation) =>
        (_report, _flow, _cancellation) = (report, flow, cancellation);

    /// <summary>The document; the same report gives the same bytes.</summary>
    /// <param name="report">The report.</param>
    /// <param name="font">What it is set in.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static byte[] Of(ReportDocument report, ChartFont font, CancellationToken cancellation)
    {
        // The document's dates are the profile's, so that its bytes depend on the profile alone.
        DateTime date = report.Profile.CreatedUtc?.UtcDateTime ?? DateTime.UnixEpoch;
        return PageFlow.Write(
            $"{report.Title}: sensor profile report", report.Review.Sentence, date, font, $"{report.Title} · {report.Subtitles[0]}",
            flow => new PdfReport(report, flow, cancellation).Draw());
    }

    private void Draw()
    {
        Paragraph(_report.Title, TitleSize, bold: true);
        foreach (string line in _report.Subtitles.Where(s => s.Length > 0))
        {
            Paragraph(line, TextSize, quiet: true);
        }

        _flow.Y += 6;
        foreach ((int index, ReportSection section) in _report.Sections.Index())
        {
            if (index > 0)
            {
                _flow.NewPage();
                Title(section.Title);
            }

            foreach (ReportBlock block in section.Blocks)
            {
                _cancellation.ThrowIfCancellationRequested();
                Draw(block);
            }
        }

        DrawData();
    }

    private void DrawData()
    {
        _flow.NewPage();
        Title("The charts' data");
        foreach (ChartBlock chart in _report.Sections.SelectMany(s => s.Blocks).OfType<ChartBlock>().Where(c => c.Data.Rows.Count > 0))
        {
            _cancellation.ThrowIfCancellationRequested();
            Heading(chart.Drawing.Heading.Title);
            new PdfTable(_flow, chart.Data).Draw();
        }
    }

    private void Draw(ReportBlock block)
    {
        switch (block)
        {
            case WordsBlock words:
                Paragraph(words.Words, words.IsQuiet ? SmallSize : TextSize, quiet: words.IsQuiet);
                _flow.Y += 4;
                break;
            case HeadingBlock heading:
                Heading(heading.Words);
                break;
            case ListBlock list:
                DrawList(list.Items);
                break;
            case FactsBlock facts:
                DrawFacts(facts);
                break;
            case AnswersBlock answers:
                DrawAnswers(answers.Review);
                break;
            case FindingsBlock findings:
                DrawFindings(findings.Findings);
                break;
            case TableBlock table:
                new PdfTable(_flow, table.Table).Draw();
                break;
            case ChartBlock chart:
                DrawChart(chart);
                break;
            case OnDemandBlock more:
                Heading(more.Summary);
                foreach (ReportBlock inner in more.Blocks)
                {
                    Draw(inner);
                }

                break;
            default:
                throw new ArgumentException($"Paper has no form for {block.GetType().Name}.", nameof(block));
        }
    }

    private void Title(string words)
    {
        Paragraph(words, SectionSize, bold: true);
        _flow.Pen.Line(PageFlow.Left, _flow.Y + 2, PageFlow.Left + PageFlow.Width, _flow.Y + 2, Theme.Ink, 1.2f);
        _flow.Y += 10;
    }

    private void Heading(string words) => _flow.Heading(words, HeadingSize, HeadingRoom);

    private void Paragraph(string words, float size, bool bold = false, bool quiet = false, float indent = 0) => _flow.Paragraph(words, size, bold, quiet, indent);

    private void DrawList(IReadOnlyList<string> items)
    {
        foreach (string item in items)
        {
            _flow.Require(TextSize * 1.4f);
            _flow.Point(TextSize);
            Paragraph(item, TextSize, indent: 11);
            _flow.Y += 1.5f;
        }

        _flow.Y += 4;
    }

    private void DrawFacts(FactsBlock facts)
    {
        foreach ((string name, string fact) in facts.Facts)
        {
            _flow.Require(TextSize * 1.4f);
            _flow.Pen.Text(name, PageFlow.Left, _flow.Y + (TextSize * 1.05f), TextSize, Theme.Quiet);
            Paragraph(fact, TextSize, indent: FactColumn);
            _flow.Y += 1;
        }

        _flow.Y += 6;
    }

    private void DrawAnswers(ProfileReview review)
    {
        Heading("Can I use it?");
        Paragraph(review.Sentence, TextSize);
        Heading("What should I shoot again?");
        if (review.ShootAgain.Count == 0)
        {
            Paragraph("Nothing.", TextSize);
        }
        else
        {
            DrawList(review.ShootAgain);
        }
    }

    private void DrawFindings(IReadOnlyList<Finding> findings)
    {
        if (findings.Count == 0)
        {
            Paragraph("There are none.", TextSize);
        }

        foreach (Finding finding in findings)
        {
            _flow.Require(FindingRoom);
            Paragraph($"{ProvenanceTables.SeverityWord(finding.Severity)}: {FindingWords.Place(finding)}", TextSize, bold: true);
            Paragraph(finding.Message, TextSize, indent: 11);
            Paragraph("Remedy: " + finding.Remedy, TextSize, indent: 11);
            if (FindingWords.Frames(finding, MostFramesNamed) is { Length: > 0 } frames)
            {
                Paragraph(frames, SmallSize, quiet: true, indent: 11);
            }

            _flow.Y += 5;
        }
    }

    private void DrawChart(ChartBlock chart)
    {
        float scale = Math.Min(PageFlow.Width / ChartDrawing.Width, (PageFlow.FullHeight - 120) / chart.Drawing.Height);
        float height = chart.Drawing.Height * scale;
        _flow.Y += 8;
        _flow.Require(height + 70);
        Paragraph(chart.Drawing.Heading.Title, HeadingSize, bold: true);
        Paragraph(chart.Drawing.Heading.Sentence, TextSize);
        _flow.Require(height);
        SKCanvas canvas = _flow.Pen.Canvas;
        canvas.Save();
        canvas.Translate(PageFlow.Left, _flow.Y);
        canvas.Scale(scale);
        chart.Drawing.Draw(canvas, Theme);
        canvas.Restore();
        _flow.Y += height + 2;
        foreach (FigureDefinition definition in chart.Reading)
        {
            Paragraph($"{definition.Name}: {definition.Full}", SmallSize, quiet: true);
        }
    }
}
