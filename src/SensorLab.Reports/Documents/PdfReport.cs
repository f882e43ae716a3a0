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

    // What a heading needs below it on its page, so that it never stands alone.
    private const float Company = 60;
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
        string footer = $"{report.Title} · {report.Subtitles[0]}";
        var counted = new PageFlow(null, font, footer, 0);
        new PdfReport(report, counted, cancellation).Draw();
        using var stream = new MemoryStream();
        using (SKDocument document = SKDocument.CreatePdf(stream, MetadataOf(report)))
        {
            var flow = new PageFlow(document, font, footer, counted.Count);
            new PdfReport(report, flow, cancellation).Draw();
            flow.End();
            document.Close();
        }

        return stream.ToArray();
    }

    // The document's dates are the profile's, so that its bytes depend on the profile alone.
    private static SKDocumentPdfMetadata MetadataOf(ReportDocument report)
    {
        DateTime date = report.Profile.CreatedUtc?.UtcDateTime ?? DateTime.UnixEpoch;
        return new SKDocumentPdfMetadata
        {
            Title = $"{report.Title}: sensor profile report",
            Subject = report.Review.Sentence,
            Creator = "SensorLab",
            Creation = date,
            Modified = date,
            RasterDpi = SKDocumentPdfMetadata.DefaultRasterDpi,
            EncodingQuality = SKDocumentPdfMetadata.DefaultEncodingQuality,
        };
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

    private void Heading(string words)
    {
        _flow.Y += 8;
        _flow.Require(Company);
        Paragraph(words, HeadingSize, bold: true);
        _flow.Y += 2;
    }

    // Line by line, since a paragraph may be longer than a page.
    private void Paragraph(string words, float size, bool bold = false, bool quiet = false, float indent = 0)
    {
        foreach (string line in TextLines.Wrap(ForeignText.OneLine(words), PageFlow.Width - indent, text => _flow.Pen.Measure(text, size, bold)))
        {
            _flow.Require(size * 1.4f);
            _flow.Y = _flow.Pen.Paragraph(line, PageFlow.Left + indent, _flow.Y, PageFlow.Width, size, quiet ? Theme.Quiet : Theme.Ink, bold);
        }
    }

    private void DrawList(IReadOnlyList<string> items)
    {
        foreach (string item in items)
        {
            _flow.Require(TextSize * 1.4f);
            _flow.Pen.Text("·", PageFlow.Left + 2, _flow.Y + (TextSize * 1.05f), TextSize, Theme.Ink);
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
            _flow.Require(Company / 2);
            Paragraph($"{ProvenanceTables.SeverityWord(finding.Severity)}: {FindingWords.Place(finding)}", TextSize, bold: true);
            Paragraph(finding.Message, TextSize, indent: 11);
            Paragraph("Remedy: " + finding.Remedy, TextSize, indent: 11);
            if (FindingWords.Frames(finding, int.MaxValue) is { Length: > 0 } frames)
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
