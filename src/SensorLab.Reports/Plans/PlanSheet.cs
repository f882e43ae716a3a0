using System.Globalization;
using SensorLab.Planning.Plans;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Plans;

/// <summary>The shot list as a sheet to print: a box to tick for every step, room for notes.</summary>
internal sealed class PlanSheet
{
    private const float TitleSize = 19;
    private const float SectionSize = 12;
    private const float TextSize = 9;
    private const float RowSize = 10.5f;
    private const float RowHeight = 17.5f;
    private const float BoxSize = 10;
    private const float SectionRoom = 10;
    private const float Indent = 12;

    // Left edges of a row's columns: box, number, ISO, time, frames, what it is, frames.csv.
    private static readonly float[] Columns = [0, 22, 52, 108, 172, 216, 382];
    private static readonly ChartTheme Theme = ChartTheme.Light;

    // A fixed date, so that the document's bytes depend on the plan alone.
    private static readonly DateTime DocumentDate = new(2026, 4, 18, 0, 0, 0, DateTimeKind.Utc);

    private readonly ShotPlan _plan;
    private readonly PageFlow _flow;

    private PlanSheet(ShotPlan plan, PageFlow flow) => (_plan, _flow) = (plan, flow);

    /// <summary>The document; the same plan gives the same bytes.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="font">What it is set in.</param>
    public static byte[] Of(ShotPlan plan, ChartFont font) => PageFlow.Write(
        PlanWords.Title(plan), plan.Purpose, DocumentDate, font, $"{PlanWords.Title(plan)} · {PlanWords.Conditions(plan)}",
        flow => new PlanSheet(plan, flow).Draw());

    private void Draw()
    {
        _flow.Paragraph(PlanWords.Title(_plan), TitleSize, bold: true, of: _flow.Add("H1"));
        Paragraph(_plan.Purpose, TextSize);
        Paragraph(PlanWords.Summary(_plan), TextSize, bold: true);
        Paragraph(PlanWords.Conditions(_plan), TextSize, quiet: true);
        _flow.Y += 6;
        DrawBlanks();
        DrawSets();
        if (_plan.Notices.Count > 0)
        {
            DrawItems("Know before you start", _plan.Notices.Select(n => $"{n.Message} Way out: {n.Remedy}"), ticks: false);
        }

        DrawItems("Take care", _plan.Cautions, ticks: false);
        DrawItems("Before the first frame", _plan.Preparations, ticks: true);
        foreach (IGrouping<string, PlanStep> group in _plan.Steps.GroupBy(PlanWords.Group))
        {
            DrawGroup(group.Key, [.. group]);
        }

        DrawPrediction();
        DrawItems("What the plan assumes", _plan.Assumes, ticks: false);
    }

    private void DrawBlanks()
    {
        _flow.Mark(_flow.Add("P"));
        float x = PageFlow.Left;
        float baseline = _flow.Y + 12;
        foreach ((string label, float width) in new[] { ("Body, serial number", 175f), ("Firmware", 100f), ("Date", 95f), ("Temperature", 105f) })
        {
            float start = x + _flow.Pen.Measure(label, TextSize) + 4;
            _flow.Pen.Text(label, x, baseline, TextSize, Theme.Quiet);
            _flow.Pen.Line(start, baseline + 1, x + width, baseline + 1, Theme.Quiet, 0.6f);
            x += width + 10;
        }

        _flow.Y += 18;
    }

    private void DrawSets()
    {
        if (_plan.Sets.Count > 1)
        {
            DrawItems(
                string.Create(CultureInfo.InvariantCulture, $"This list is shot {_plan.Sets.Count} times"),
                _plan.Sets.Select(s => $"{s.Name}: {s.When}"),
                ticks: true);
        }
    }

    private void DrawItems(string heading, IEnumerable<string> items, bool ticks)
    {
        Heading(heading);
        PdfElement? list = _flow.Add("L");
        foreach (string item in items)
        {
            _flow.Require(TextSize * 2.8f);
            PdfElement? element = _flow.Item(list);
            if (ticks)
            {
                DrawBox(PageFlow.Left, _flow.Y + 2, 8);
            }
            else
            {
                _flow.Point(TextSize);
            }

            _flow.Paragraph(item, TextSize, indent: Indent, of: element);
            _flow.Y += 1.5f;
        }
    }

    private void DrawGroup(string heading, PlanStep[] steps)
    {
        Heading(heading);
        PdfElement? table = _flow.Add("Table");
        DrawHead(_flow.Add("TR", table));
        foreach (PlanStep step in steps)
        {
            if (_flow.Require((RowHeight * 2) + (step.Actions.Count * TextSize * 3)))
            {
                _flow.Adorn(() => DrawHead(null));
            }

            foreach (string action in step.Actions)
            {
                _flow.Y += 4;
                float top = _flow.Y;
                _flow.Paragraph(action, TextSize, bold: true, indent: Columns[1], of: _flow.Add("TD", _flow.Add("TR", table)));
                _flow.Pen.Box(new SKRect(PageFlow.Left + Columns[1] - 8, top + 1, PageFlow.Left + Columns[1] - 5, _flow.Y), Theme.Headroom);
                _flow.Y += 2;
            }

            DrawRow(step, _flow.Add("TR", table));
        }
    }

    private void DrawHead(PdfElement? row)
    {
        string[] titles = ["", "No.", "ISO", "Time", "Frames", "What", "In frames.csv"];
        foreach ((int i, string title) in titles.Index())
        {
            _flow.Mark(row?.Add("TH"));
            _flow.Pen.Text(title, PageFlow.Left + Columns[i], _flow.Y + 9, 7.5f, Theme.Quiet);
        }

        _flow.Y += 12;
        _flow.Pen.Line(PageFlow.Left, _flow.Y, PageFlow.Left + PageFlow.Width, _flow.Y, Theme.Ink, 0.8f);
    }

    private void DrawRow(PlanStep step, PdfElement? row)
    {
        float baseline = _flow.Y + 12.5f;
        DrawBox(PageFlow.Left, baseline - BoxSize + 1.5f, BoxSize);
        (string Text, bool Bold)[] cells =
        [
            (string.Empty, false),
            (step.Number.ToString(CultureInfo.InvariantCulture), false),
            (step.Iso.ToString(CultureInfo.InvariantCulture), false),
            (PlanWords.Exposure(step), true),
            (string.Create(CultureInfo.InvariantCulture, $"× {step.Frames}"), true),
            (PlanWords.Kind(step), false),
            (PlanWords.Column(step), false),
        ];
        foreach ((int i, (string text, bool bold)) in cells.Index())
        {
            _flow.Mark(row?.Add("TD"));
            _flow.Pen.Text(text, PageFlow.Left + Columns[i], baseline, i is 1 or 6 ? TextSize - 0.5f : i == 5 ? TextSize : RowSize, i == 1 ? Theme.Quiet : Theme.Ink, SKTextAlign.Left, bold);
        }

        _flow.Y += RowHeight;
        _flow.Pen.Line(PageFlow.Left, _flow.Y, PageFlow.Left + PageFlow.Width, _flow.Y, Theme.Grid, 0.5f);
    }

    private void DrawPrediction()
    {
        Heading("What it should give");
        if (_plan.Prediction.Count == 0)
        {
            Paragraph(PlanWords.PredictionCaption(_plan), TextSize);
            return;
        }

        new PdfTable(_flow, PlanTables.Prediction(_plan)).Draw();
    }

    private void DrawBox(float left, float top, float size) => _flow.Pen.Shape(
        [new SKPoint(left, top), new SKPoint(left + size, top), new SKPoint(left + size, top + size), new SKPoint(left, top + size)],
        null,
        Theme.Ink);

    private void Heading(string words) => _flow.Heading(words, SectionSize, SectionRoom);

    private void Paragraph(string words, float size, bool bold = false, bool quiet = false, float indent = 0) => _flow.Paragraph(words, size, bold, quiet, indent);
}
