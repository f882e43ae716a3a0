using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Documents;

/// <summary>A report on A4 paper: a few pages that answer, and an appendix with all the rest; charts as vectors, text that can be selected.</summary>
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
    private const float HeadingLine = 24;

    // What fits a page of evidence twice, with its words.
    private const float EvidenceHeight = 270;
    private const int ChartsOfEvidence = 2;

    // What one reads: four pages of three ISOs, ten of any number.
    private const int FewIsos = 3;
    private const int MostPagesOfFew = 4;
    private const int MostPages = 10;

    private static readonly ChartTheme Theme = ChartTheme.Light;

    private readonly ReportDocument _report;
    private readonly PageFlow _flow;
    private readonly CancellationToken _cancellation;

    // Findings beyond it are told of, and stand in the page and in tables/findings.csv.
    private int _lastPage = int.MaxValue;

    private PdfReport(ReportDocument report, PageFlow flow, CancellationToken cancellation) =>
        (_report, _flow, _cancellation) = (report, flow, cancellation);

    /// <summary>The pages that answer: answer, findings, ruler, and the evidence of ISOs that are in doubt; the same report gives the same bytes.</summary>
    /// <param name="report">The report.</param>
    /// <param name="font">What it is set in.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static byte[] Of(ReportDocument report, ChartFont font, CancellationToken cancellation) =>
        Write(report, "sensor profile report", font, flow => new PdfReport(report, flow, cancellation).DrawAnswer());

    /// <summary>All the rest: every chart, every figure, the data, the hashes, the glossary.</summary>
    /// <param name="report">The report.</param>
    /// <param name="font">What it is set in.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static byte[] Appendix(ReportDocument report, ChartFont font, CancellationToken cancellation) =>
        Write(report, "sensor profile report, appendix", font, flow => new PdfReport(report, flow, cancellation).DrawAppendix());

    // The document's dates are the profile's, so that its bytes depend on the profile alone.
    private static byte[] Write(ReportDocument report, string kind, ChartFont font, Action<PageFlow> draw) => PageFlow.Write(
        $"{report.Title}: {kind}", report.Review.Sentence, report.Profile.CreatedUtc?.UtcDateTime ?? DateTime.UnixEpoch, font, $"{report.Title} · {report.Subtitles[0]}", draw);

    private void DrawTitle(string title)
    {
        _flow.Paragraph(title, TitleSize, bold: true, of: _flow.Add("H1"));
        foreach (string line in _report.Subtitles.Where(s => s.Length > 0))
        {
            Paragraph(line, TextSize, quiet: true);
        }

        _flow.Y += 6;
    }

    private void DrawAnswer()
    {
        DrawTitle(_report.Title);
        int most = _report.Profile.IsoProfiles.Count <= FewIsos ? MostPagesOfFew : MostPages;
        (ReportSection Section, IsoProfile Iso)[] doubtful =
        [
            .. _report.Profile.IsoProfiles.OrderBy(i => i.Iso)
                .Where(i => _report.Review.StateOf(i.Iso) != "stands")
                .Select(i => (_report.Sections.First(s => s.Id == ReportBuilder.IdOf(i)), i)),
        ];
        _lastPage = doubtful.Length > 0 ? most - 1 : most;
        DrawBlocks(_report.Sections[0].Blocks);
        _flow.Require(3 * TextSize);
        int shown = Math.Min(doubtful.Length, most - _flow.Count);
        string left = doubtful.Length > shown
            ? $"The evidence of {ReviewWords.Isos([.. doubtful.Skip(shown).Select(d => d.Iso.Iso)])} is in the appendix, as are"
            : "In the appendix, appendix.pdf, are";
        Paragraph($"{left} every chart and figure, the data, the frames with their hashes, and what the words mean.", SmallSize, quiet: true);
        foreach ((ReportSection section, IsoProfile iso) in doubtful.Take(shown))
        {
            DrawEvidence(section, iso);
        }
    }

    // One page an ISO: what is in doubt, and the two charts that show whether it matters.
    private void DrawEvidence(ReportSection section, IsoProfile iso)
    {
        _flow.NewPage();
        Title(section.Title);
        Paragraph($"ISO {iso.Iso.ToString(CultureInfo.InvariantCulture)} is {_report.Review.StateOf(iso.Iso)}.", TextSize);
        foreach (ChartBlock chart in section.Blocks.OfType<ChartBlock>().Take(ChartsOfEvidence))
        {
            DrawChart(chart, EvidenceHeight);
        }
    }

    private void DrawAppendix()
    {
        DrawTitle($"{_report.Title}: appendix");
        Paragraph("The answer stands in report.pdf. Here is what it rests on.", TextSize);
        foreach ((int index, ReportSection section) in _report.Sections.Skip(1).Index())
        {
            if (index > 0)
            {
                _flow.NewPage();
            }

            Title(section.Title);
            DrawBlocks(section.Blocks);
        }

        DrawData();
    }

    private void DrawBlocks(IReadOnlyList<ReportBlock> blocks)
    {
        foreach ((int index, ReportBlock block) in blocks.Index())
        {
            _cancellation.ThrowIfCancellationRequested();
            Draw(block, index + 1 < blocks.Count ? blocks[index + 1] : null);
        }
    }

    private void DrawData()
    {
        _flow.NewPage();
        Title("The charts' data");
        foreach (ChartBlock chart in _report.Sections.SelectMany(s => s.Blocks).OfType<ChartBlock>().Where(c => c.Data.Rows.Count > 0))
        {
            _cancellation.ThrowIfCancellationRequested();
            var table = new PdfTable(_flow, chart.Data);
            _flow.Heading(chart.Drawing.Heading.Title, HeadingSize, HeadingRoom, table.LeastHeight + HeadingLine);
            table.Draw();
        }
    }

    private void Draw(ReportBlock block, ReportBlock? next)
    {
        switch (block)
        {
            case WordsBlock words:
                Paragraph(words.Words, words.IsQuiet ? SmallSize : TextSize, quiet: words.IsQuiet);
                _flow.Y += 4;
                break;
            case HeadingBlock heading:
                _flow.Heading(heading.Words, HeadingSize, HeadingRoom, CompanyOf(next) + HeadingLine);
                break;
            case GlossaryBlock glossary:
                DrawGlossary(glossary);
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
            case BriefBlock brief:
                _flow.Y += 6;
                DrawList(brief.Lines);
                break;
            case FindingsBlock findings:
                new PdfFindings(_flow, _lastPage).Draw(findings.Groups);
                break;
            case TableBlock table:
                new PdfTable(_flow, table.Table).Draw();
                break;
            case ChartBlock chart:
                DrawChart(chart, PageFlow.FullHeight - 120);
                break;
            case OnDemandBlock more:
                _flow.Heading(more.Summary, HeadingSize, HeadingRoom, CompanyOf(more.Blocks[0]) + HeadingLine);
                DrawBlocks(more.Blocks);

                break;
            default:
                throw new ArgumentException($"Paper has no form for {block.GetType().Name}.", nameof(block));
        }
    }

    // What a heading has to leave of the page for what it is above.
    private float CompanyOf(ReportBlock? next) => next switch
    {
        TableBlock table => new PdfTable(_flow, table.Table).LeastHeight,
        ChartBlock chart => chart.Drawing.Height * ScaleOf(chart.Drawing, PageFlow.FullHeight - 120),
        _ => FindingRoom,
    };

    private static float ScaleOf(ChartDrawing drawing, float most) => Math.Min(PageFlow.Width / ChartDrawing.WideWidth, most / drawing.Height);

    private void DrawGlossary(GlossaryBlock glossary)
    {
        foreach ((string term, string words) in glossary.Terms.Concat(glossary.Figures.Select(f => (f.Title, f.Full))))
        {
            _flow.Require(2.8f * TextSize);
            Paragraph(term, TextSize, bold: true);
            Paragraph(words, TextSize, indent: 11);
            _flow.Y += 2;
        }
    }

    private void Title(string words)
    {
        _flow.Paragraph(words, SectionSize, bold: true, of: _flow.Add("H2"));
        _flow.Pen.Line(PageFlow.Left, _flow.Y + 2, PageFlow.Left + PageFlow.Width, _flow.Y + 2, Theme.Ink, 1.2f);
        _flow.Y += 10;
    }

    private void Heading(string words) => _flow.Heading(words, HeadingSize, HeadingRoom);

    private void Paragraph(string words, float size, bool bold = false, bool quiet = false, float indent = 0) => _flow.Paragraph(words, size, bold, quiet, indent);

    private void DrawList(IReadOnlyList<string> items)
    {
        PdfElement? list = _flow.Add("L");
        foreach (string item in items)
        {
            _flow.Require(TextSize * 1.4f);
            PdfElement? element = _flow.Item(list);
            _flow.Point(TextSize);
            _flow.Paragraph(item, TextSize, indent: 11, of: element);
            _flow.Y += 1.5f;
        }

        _flow.Y += 4;
    }

    private void DrawFacts(FactsBlock facts)
    {
        foreach ((string name, string fact) in facts.Facts)
        {
            _flow.Require(TextSize * 1.4f);
            PdfElement? element = _flow.Add("P");
            _flow.Mark(element);
            _flow.Pen.Text(name, PageFlow.Left, _flow.Y + (TextSize * 1.05f), TextSize, Theme.Quiet);
            _flow.Paragraph(fact, TextSize, indent: FactColumn, of: element);
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

    private void DrawChart(ChartBlock chart, float most)
    {
        float scale = ScaleOf(chart.Drawing, most);
        float height = chart.Drawing.Height * scale;
        _flow.Y += 8;
        _flow.Require(height + 70);
        _flow.Paragraph(chart.Drawing.Heading.Title, HeadingSize, bold: true, of: _flow.Add("H3"));
        Paragraph(chart.Drawing.Heading.Sentence, TextSize);
        _flow.Require(height);
        _flow.Mark(_flow.Add("Figure", alternative: chart.Drawing.Heading.AlternativeText));
        SKCanvas canvas = _flow.Pen.Canvas;
        canvas.Save();
        canvas.Translate(PageFlow.Left, _flow.Y);
        canvas.Scale(scale);
        chart.Drawing.Draw(canvas, Theme);
        canvas.Restore();
        _flow.Y += height + 2;
    }
}
