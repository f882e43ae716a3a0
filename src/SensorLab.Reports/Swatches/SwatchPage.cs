using System.Globalization;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Pages;

namespace SensorLab.Reports.Swatches;

/// <summary>A swatch as a page: patches to choose from, each with its number.</summary>
internal sealed class SwatchPage
{
    /// <summary>Columns of a patch: whole on a screen of one, one and a half, two or three pixels a point.</summary>
    public const int PatchWidth = 288;

    /// <summary>Rows of a patch.</summary>
    public const int PatchHeight = 216;

    // Any number: patches of other seeds are as true.
    private const int FirstSeed = 1971;
    private const int FirstLiftedSeed = 4093;

    private readonly HtmlWriter _html;
    private readonly SwatchModel _model;

    private SwatchPage(HtmlWriter html, SwatchModel model) => (_html, _model) = (html, model);

    /// <summary>The page.</summary>
    /// <param name="model">The swatch.</param>
    /// <returns>UTF-8.</returns>
    public static byte[] Of(SwatchModel model) => PageShell.Document(SwatchWords.Title(model), html => new SwatchPage(html, model).Write(), ["swatch.css"]);

    private void Write()
    {
        using IDisposable main = _html.In("main");
        WholeWords.Write(_html, "h1", SwatchWords.Title(_model));
        _html.Leaf("p", ProfileFacts.Identity(_model.Profile), ("class", "quiet"));
        _html.Leaf("p", SwatchWords.Task, ("class", "task"));
        using (_html.In("ul", ("class", "quiet")))
        {
            foreach (string note in SwatchWords.Notes(_model, isPaper: false))
            {
                _html.Leaf("li", note);
            }
        }

        _html.Leaf("h2", "As they lie");
        WritePatches([.. _model.Tones], isLifted: false);
        SwatchTone[] shadows = [.. _model.Tones.Where(t => t.Ev < 0)];
        if (shadows.Length > 0)
        {
            _html.Leaf("h2", SwatchWords.LiftedTitle);
            _html.Leaf("p", SwatchWords.Lifted);
            WritePatches(shadows, isLifted: true);
        }
    }

    private void WritePatches(SwatchTone[] tones, bool isLifted)
    {
        using IDisposable box = _html.In("div", ("class", isLifted ? "patches lifted" : "patches"));
        foreach ((int index, SwatchTone tone) in tones.Index())
        {
            _html.Break();
            double light = SwatchPatch.GreyLight * (isLifted ? 1 : Math.Pow(2, tone.Ev));
            var patch = SwatchPatch.Draw(tone, light, _model, PatchWidth, PatchHeight, (isLifted ? FirstLiftedSeed : FirstSeed) + index);
            WritePatch(tone, patch, isLifted, string.Create(CultureInfo.InvariantCulture, $"{(isLifted ? "lifted" : "tone")}-{index + 1}"));
        }
    }

    private void WritePatch(SwatchTone tone, SwatchPatch patch, bool isLifted, string id)
    {
        using IDisposable element = _html.In(
            "div", ("class", "patch"), ("data-ev", Invariant(tone.Ev)), ("data-snr", Invariant(Math.Round(tone.Snr, 3))), ("data-lifted", isLifted ? "" : null), ("data-coarse", patch.IsCoarse ? "" : null));
        _html.Void("input", ("type", "radio"), ("name", "accept"), ("id", id));
        using (_html.In("label", ("for", id)))
        {
            _html.Void(
                "img", ("src", "data:image/png;base64," + Convert.ToBase64String(patch.Png())), ("alt", SwatchWords.Alternative(tone, isLifted)),
                ("width", PatchWidth.ToString(CultureInfo.InvariantCulture)), ("height", PatchHeight.ToString(CultureInfo.InvariantCulture)));
            _html.Leaf("b", $"{SwatchWords.EvWord(tone.Ev)} EV");
            _html.Text($" SNR {SwatchWords.SnrWord(tone)} ");
            _html.Leaf("code", $"--snr {SwatchWords.CriterionWord(tone)}");
            if (patch.IsCoarse)
            {
                _html.Leaf("small", SwatchWords.CoarseMark);
            }
        }

        using IDisposable chosen = _html.In("p", ("class", "chosen"));
        _html.Leaf("b", $"Your criterion is SNR {SwatchWords.CriterionWord(tone)}. ");
        _html.Leaf("code", SwatchWords.Command(_model, tone));
    }

    private static string Invariant(double number) => number.ToString(CultureInfo.InvariantCulture);
}
