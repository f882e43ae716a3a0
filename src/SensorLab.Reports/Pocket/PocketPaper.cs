using SensorLab.Files;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;
using SkiaSharp;

namespace SensorLab.Reports.Pocket;

/// <summary>The pocket sheet on A5 paper, in black: a page or more a body, then cards to cut out.</summary>
internal sealed class PocketPaper
{
    /// <summary>ISO 216 A5, in points.</summary>
    public static readonly SKSize Page = new(148 * PointsPerMm, 210 * PointsPerMm);

    private const float PointsPerMm = 72 / 25.4f;
    private const float Left = 11 * PointsPerMm;
    private const float Top = 11 * PointsPerMm;
    private const float Foot = 9 * PointsPerMm;
    private const float TitleSize = 15;
    private const float HeadingSize = 10;
    private const float TextSize = 8;
    private const float TableSize = 7.5f;
    private const float SmallestTableSize = 5.5f;
    private static readonly float Width = Page.Width - (2 * Left);
    private static readonly SKColor Ink = SKColors.Black;

    private readonly PdfPages _document;
    private readonly ChartFont _font;
    private Pen? _pen;
    private float _y;
    private string _footer = string.Empty;

    private PocketPaper(PdfPages document, ChartFont font) => (_document, _font) = (document, font);

    /// <summary>The document.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="font">What it is set in.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static byte[] Of(PocketSheet sheet, ChartFont font, CancellationToken cancellation)
    {
        // The document's dates are the profile's, so that its bytes depend on the profiles alone.
        DateTime date = sheet.Bodies[0].CreatedUtc?.UtcDateTime ?? DateTime.UnixEpoch;
        return PdfFile.Of($"Pocket sheet: {PocketWords.Name(sheet.Bodies[0])}", null, date, document =>
        {
            var paper = new PocketPaper(document, font);
            foreach (PocketBody body in sheet.Bodies)
            {
                cancellation.ThrowIfCancellationRequested();
                paper.DrawBody(body);
            }

            document.EndPage();
            PocketCards.Draw(document, font, sheet, cancellation);
        });
    }

    private void DrawBody(PocketBody body)
    {
        _footer = string.Join(" · ", [PocketWords.Name(body), .. PocketWords.State(body)]);
        NewPage();
        Paragraph(PocketWords.Name(body), TitleSize, bold: true, of: _document.Root.Add("H1"));
        Paragraph(string.Join(" · ", PocketWords.State(body)), TextSize);
        if (PocketWords.Kinship(body) is { Length: > 0 } kinship)
        {
            _y += 2;
            Paragraph(kinship, HeadingSize, bold: true);
        }

        Table(PocketTables.Placement(body));
        Table(PocketTables.Lights(body));
        Table(PocketTables.Previews(body));
        Table(PocketTables.DialIn(body));
        _y += 3;
        List(body.NoDialIn.Select(reason => $"Nothing to dial in: {reason}"));
        Heading("How to use it");
        List(PocketWords.Use);
        Heading("How sure it is");
        List([PocketWords.Criterion, PocketWords.Uncertainty, PocketWords.Flare, PocketWords.OtherLight, .. PocketWords.Cautions(body)]);
    }

    private void NewPage()
    {
        if (_pen is not null)
        {
            _document.EndPage();
        }

        _pen = new Pen(_document.BeginPage(Page.Width, Page.Height), _font);
        _y = Top;
        string footer = TextLines.Clip(TextLines.Wrap(_footer, Width, text => _pen.Measure(text, 6)), 1).FirstOrDefault(string.Empty);
        _document.Adorn(() => _pen.Text(footer, Left, Page.Height - Foot + 8, 6, Ink));
    }

    private void Require(float height)
    {
        if (_y + height > Page.Height - Foot - 4)
        {
            NewPage();
        }
    }

    private void Heading(string words)
    {
        _y += 8;
        Require(44);
        Paragraph(words, HeadingSize, bold: true, of: _document.Root.Add("H2"));
        _y += 1;
    }

    private void Paragraph(string words, float size, bool bold = false, float indent = 0, PdfElement? of = null)
    {
        _document.Mark(of ?? _document.Root.Add("P"));
        IReadOnlyList<string> lines = [.. TextLines.WrapWithoutOrphan(ForeignText.OneLine(words), Width - indent, text => _pen!.Measure(text, size, bold))];
        foreach ((int index, string line) in lines.Index())
        {
            Require(size * 1.4f);
            _y = _pen!.Paragraph(line, Left + indent, _y, Page.Width, size, Ink, bold, goesOn: index + 1 < lines.Count);
        }
    }

    private void List(IEnumerable<string> items)
    {
        PdfElement? list = null;
        foreach (string item in items)
        {
            Require(TextSize * 1.4f);
            list ??= _document.Root.Add("L");
            PdfElement element = list.Add("LI").Add("LBody");
            _document.Mark(element);
            _pen!.Text("·", Left + 2, _y + (TextSize * 1.05f), TextSize, Ink, bold: true);
            Paragraph(item, TextSize, indent: 9, of: element);
            _y += 1;
        }
    }

    private void Table(ReportTable table)
    {
        if (table.Rows.Count == 0)
        {
            return;
        }

        Heading(table.Caption);
        var drawn = new PocketTable(_pen!, table, Width, TableSize, SmallestTableSize);
        Require(drawn.HeadHeight + drawn.RowHeight(0));
        drawn = new PocketTable(_pen!, table, Width, TableSize, SmallestTableSize);
        PdfElement element = _document.Root.Add("Table");
        _y = drawn.DrawHead(Left, _y, _document.Cells(element, "TH"));
        for (int row = 0; row < table.Rows.Count; row++)
        {
            if (_y + drawn.RowHeight(row) > Page.Height - Foot - 4)
            {
                NewPage();
                drawn = new PocketTable(_pen!, table, Width, TableSize, SmallestTableSize);
                _document.Adorn(() => _y = drawn.DrawHead(Left, _y));
            }

            _y = drawn.DrawRow(row, Left, _y, _document.Cells(element, "TD"));
        }
    }
}
