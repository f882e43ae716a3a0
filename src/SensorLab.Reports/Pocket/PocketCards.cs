using SensorLab.Files;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;
using SkiaSharp;

namespace SensorLab.Reports.Pocket;

/// <summary>Cards of wallet size, three on an A5 page at their true size, with marks to cut along.</summary>
internal static class PocketCards
{
    /// <summary>ISO/IEC 7810 ID-1, the size of a bank card, in points.</summary>
    public static readonly SKSize Card = new(85.6f * PointsPerMm, 53.98f * PointsPerMm);

    private const float PointsPerMm = 72 / 25.4f;
    private const int CardsAPage = 3;
    private const float Padding = 3 * PointsPerMm;
    private const float TitleSize = 8.5f;
    private const float TextSize = 5.6f;
    private const float LargestTable = 7.5f;
    private const float SmallestTable = 5;
    private const float MarkLength = 10;
    private static readonly SKColor Ink = SKColors.Black;

    /// <summary>Draws the pages.</summary>
    /// <param name="document">Where to.</param>
    /// <param name="font">What they are set in.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static void Draw(PdfPages document, ChartFont font, PocketSheet sheet, CancellationToken cancellation)
    {
        var cards = new Queue<(PocketBody Body, ReportTable Table)>(sheet.Bodies.SelectMany(body => TablesOf(body).Select(table => (body, table))));
        int place = CardsAPage;
        Pen? pen = null;
        int row = 0;
        while (cards.TryPeek(out (PocketBody Body, ReportTable Table) card))
        {
            cancellation.ThrowIfCancellationRequested();
            if (place == CardsAPage)
            {
                if (pen is not null)
                {
                    document.EndPage();
                }

                pen = new Pen(document.BeginPage(PocketPaper.Page.Width, PocketPaper.Page.Height), font);
                place = 0;
            }

            float gap = (PocketPaper.Page.Height - (CardsAPage * Card.Height)) / (CardsAPage + 1);
            var edges = SKRect.Create((PocketPaper.Page.Width - Card.Width) / 2, gap + (place * (Card.Height + gap)), Card.Width, Card.Height);
            document.Adorn(() => DrawCuts(pen!, edges));
            row = DrawCard(document, pen!, edges, card.Body, card.Table, row);
            place++;
            if (row == card.Table.Rows.Count)
            {
                cards.Dequeue();
                row = 0;
            }
        }

        document.EndPage();
    }

    private static IEnumerable<ReportTable> TablesOf(PocketBody body) =>
        new[] { PocketTables.Placement(body).Without("limitingChannel", "darkestCleanEv", "darkestToneEv"), PocketTables.Previews(body), PocketTables.DialIn(body) }.Where(table => table.Rows.Count > 0);

    // As many rows as the card has room for; the rest goes on the next one.
    private static int DrawCard(PdfPages document, Pen pen, SKRect edges, PocketBody body, ReportTable table, int firstRow)
    {
        (float left, float width) = (edges.Left + Padding, edges.Width - (2 * Padding));
        string title = $"{PocketWords.Name(body)} · {PocketWords.State(body)[0]}";
        float y = edges.Top + Padding - 2;
        document.Mark(document.Root.Add("P"));
        y = Lines(pen, title, left, y, width, TitleSize, 1, bold: true);
        y = Lines(pen, string.Join(" · ", PocketWords.State(body).Skip(1)), left, y, width, TextSize, 1);
        if (PocketWords.Kinship(body) is { Length: > 0 } kinship)
        {
            y = Lines(pen, kinship, left, y, width, TextSize + 0.6f, 1, bold: true);
        }

        y = Lines(pen, table.Caption, left, y + 1, width, TextSize, 2);
        var drawn = new PocketTable(pen, table, width, LargestTable, SmallestTable);
        string foot = table.Name == "placement"
            ? "Texture: SNR 10; ⅔ EV of guard below the clip. ±: 95 %, for a set shot anew. " + PocketWords.Flare
            : table.Name == "previews" ? "Stripes mark the limit of bright texture (⅔ EV below the clip; dark texture: SNR 10). ±: 95 %, for a set shot anew."
            : "Read on its own meter. ± both sensors and both meters, 95 %.";
        float bottom = edges.Bottom - Padding - (2 * TextSize * 1.36f);
        PdfElement element = document.Root.Add("Table");
        y = drawn.DrawHead(left, y + 1, document.Cells(element, "TH"));
        int row = firstRow;
        while (row < table.Rows.Count && (row == firstRow || y + drawn.RowHeight(row) <= bottom))
        {
            y = drawn.DrawRow(row++, left, y, document.Cells(element, "TD"));
        }

        document.Mark(document.Root.Add("P"));
        Lines(pen, foot, left, bottom, width, TextSize, 2);
        return row;
    }

    private static float Lines(Pen pen, string words, float left, float top, float width, float size, int most, bool bold = false)
    {
        float y = top;
        foreach (string line in TextLines.Clip(TextLines.Wrap(ForeignText.OneLine(words), width, text => pen.Measure(text, size, bold)), most))
        {
            y = pen.Paragraph(line, left, y, PocketPaper.Page.Width, size, Ink, bold);
        }

        return y;
    }

    // Outside of the card, so that no line is left on it.
    private static void DrawCuts(Pen pen, SKRect card)
    {
        foreach (float x in new[] { card.Left, card.Right })
        {
            foreach (float y in new[] { card.Top, card.Bottom })
            {
                float outX = x == card.Left ? -1 : 1;
                float outY = y == card.Top ? -1 : 1;
                pen.Line(x + (2 * outX), y, x + (MarkLength * outX), y, Ink, 0.5f);
                pen.Line(x, y + (2 * outY), x, y + (MarkLength * outY), Ink, 0.5f);
            }
        }
    }
}
