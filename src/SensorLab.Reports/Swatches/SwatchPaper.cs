using SensorLab.Reports.Documents;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Swatches;

/// <summary>A swatch on A4 paper: a pixel of the picture is 1/300 inch.</summary>
internal sealed class SwatchPaper
{
    /// <summary>Columns of a patch: four patches side by side.</summary>
    public const int PatchWidth = 480;

    /// <summary>Rows of a patch.</summary>
    public const int PatchHeight = 330;

    private const float PointsAPixel = 72f / 300;
    private const int Across = 4;
    private const float TitleSize = 17;
    private const float HeadingSize = 11;
    private const float TextSize = 9;
    private const float MarkSize = 8;
    private const float RowHeight = (PatchHeight * PointsAPixel) + (2.9f * MarkSize) + 4;
    private const int FirstSeed = 7013;
    private const int FirstLiftedSeed = 8017;

    private readonly PageFlow _flow;
    private readonly SwatchModel _model;
    private readonly SwatchPatch[] _patches;

    private SwatchPaper(PageFlow flow, SwatchModel model, SwatchPatch[] patches) => (_flow, _model, _patches) = (flow, model, patches);

    /// <summary>The document; the same profile gives the same bytes.</summary>
    /// <param name="model">The swatch.</param>
    /// <param name="font">What it is set in.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static byte[] Of(SwatchModel model, ChartFont font, CancellationToken cancellation)
    {
        // Drawn once: the pages are laid out twice.
        SwatchPatch[] patches = [.. Entries(model).Select((entry, i) =>
        {
            cancellation.ThrowIfCancellationRequested();
            double light = SwatchPatch.GreyLight * (entry.IsLifted ? 1 : Math.Pow(2, entry.Tone.Ev));
            return SwatchPatch.Draw(entry.Tone, light, model, PatchWidth, PatchHeight, (entry.IsLifted ? FirstLiftedSeed : FirstSeed) + i);
        })];
        DateTime date = model.Profile.CreatedUtc?.UtcDateTime ?? DateTime.UnixEpoch;
        return PageFlow.Write(SwatchWords.Title(model), SwatchWords.Task, date, font, SwatchWords.Title(model), flow => new SwatchPaper(flow, model, patches).Draw());
    }

    private static IEnumerable<(SwatchTone Tone, bool IsLifted)> Entries(SwatchModel model) =>
        model.Tones.Select(t => (t, false)).Concat(model.Tones.Where(t => t.Ev < 0).Select(t => (t, true)));

    private void Draw()
    {
        _flow.Paragraph(SwatchWords.Title(_model), TitleSize, bold: true, of: _flow.Add("H1"));
        _flow.Paragraph(ProfileFacts.Identity(_model.Profile), TextSize, quiet: true);
        _flow.Y += 6;
        _flow.Paragraph(SwatchWords.Task, HeadingSize, bold: true);
        PdfElement? list = _flow.Add("L");
        foreach (string note in SwatchWords.Notes(_model, isPaper: true))
        {
            PdfElement? element = _flow.Item(list);
            _flow.Point(TextSize);
            _flow.Paragraph(note, TextSize, indent: 11, of: element);
        }

        _flow.Paragraph($"With the number: {SwatchWords.Command(_model, _model.Tones[^1]).Replace($"--snr {SwatchWords.CriterionWord(_model.Tones[^1])}", "--snr NUMBER", StringComparison.Ordinal)}", TextSize);
        (SwatchTone Tone, bool IsLifted)[] entries = [.. Entries(_model)];
        _flow.Heading("As they lie", HeadingSize, 8);
        int shown = entries.Count(e => !e.IsLifted);
        DrawPatches([.. entries[..shown]], _patches[..shown]);
        if (entries.Length > shown)
        {
            _flow.Heading(SwatchWords.LiftedTitle, HeadingSize, 8, RowHeight + 50);
            _flow.Paragraph(SwatchWords.Lifted, TextSize);
            _flow.Y += 3;
            DrawPatches([.. entries[shown..]], _patches[shown..]);
        }
    }

    private void DrawPatches((SwatchTone Tone, bool IsLifted)[] entries, SwatchPatch[] patches)
    {
        const float Width = PatchWidth * PointsAPixel;
        const float Height = PatchHeight * PointsAPixel;
        const float Step = (PageFlow.Width - Width) / (Across - 1);
        foreach ((int index, (SwatchTone tone, _)) in entries.Index())
        {
            int column = index % Across;
            if (column == 0)
            {
                _flow.Require(RowHeight);
            }

            float left = PageFlow.Left + (column * Step);
            string label = $"{SwatchWords.EvWord(tone.Ev)} EV · SNR {SwatchWords.SnrWord(tone)}";
            _flow.Mark(_flow.Add("Figure", alternative: label));
            using (SKImage image = patches[index].Image())
            {
                _flow.Pen.Canvas.DrawImage(image, SKRect.Create(left, _flow.Y, Width, Height), new SKSamplingOptions(SKFilterMode.Nearest));
            }

            float mark = _flow.Y + Height + (1.15f * MarkSize);
            _flow.Pen.Text(label, left, mark, MarkSize, ChartTheme.Light.Ink, SKTextAlign.Left, bold: true);
            _flow.Pen.Text(
                patches[index].IsCoarse ? SwatchWords.CoarseMark : $"--snr {SwatchWords.CriterionWord(tone)}", left, mark + (1.3f * MarkSize), MarkSize - 1, ChartTheme.Light.Quiet);
            if (column == Across - 1 || index == entries.Length - 1)
            {
                _flow.Y += RowHeight;
            }
        }
    }
}
