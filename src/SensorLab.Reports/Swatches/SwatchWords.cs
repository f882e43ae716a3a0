using System.Globalization;
using SensorLab.Reports.Documents;

namespace SensorLab.Reports.Swatches;

/// <summary>What a swatch says.</summary>
internal static class SwatchWords
{
    // A difference that nobody sees and no criterion needs.
    private const double LineShare = 0.02;

    public const string LiftedTitle = "The same shadows, lifted to middle grey";

    public const string Lifted =
        "This is how they look after an edit that brings the shadow up to middle grey. Judge deep shadows here if you lift yours; a screen hides them above.";

    public const string CoarseMark = "noise finer than eight bits show";

    public static string Title(SwatchModel model) => string.Create(CultureInfo.InvariantCulture, $"{ProfileFacts.Name(model.Profile)} at ISO {model.Iso}: swatch");

    public static string Task { get; } = "Find the darkest patch whose noise you still accept. The number below it is your criterion.";

    /// <summary>How to look at it, and what the patches are.</summary>
    /// <param name="model">The swatch.</param>
    /// <param name="isPaper">Whether it is printed.</param>
    public static IReadOnlyList<string> Notes(SwatchModel model, bool isPaper)
    {
        string size = model.Delivery is { } d
            ? string.Create(CultureInfo.InvariantCulture, $"at {d.WidthPixels} × {d.HeightPixels} pixels, the delivery size")
            : "at the sensor's own pixels; --delivery WxH shows the size that you deliver";
        string look = isPaper
            ? "Printed at 100 %, a pixel of the picture is 1/300 inch. Look from where your prints are looked at."
            : "One pixel of the picture is one pixel of your screen, at a browser zoom of 100 %. Sit as you sit before your pictures, and set the screen as you set it for them.";
        string[] notes =
        [
            $"Every patch is an even tone with this body's own noise, {size}.",
            look,
            .. model.IsCutAtClip ? [string.Create(CultureInfo.InvariantCulture, $"Above {EvWord(model.Tones[0].Ev)} EV this ISO clips.")] : Array.Empty<string>(),
            .. model.Tones.Any(HasLines) ? ["Rows or columns show here. They are drawn; the number for --snr leaves them out at a delivery size."] : Array.Empty<string>(),
            "SNR is the signal over its noise: at 40 a tone is clean, at 10 texture holds, at 4 a shape can be told, at 1 noise is as strong as the picture.",
        ];
        return notes;
    }

    /// <summary>A tone's place.</summary>
    /// <param name="ev">EV from middle grey.</param>
    public static string EvWord(double ev) => ev == 0 ? "0" : (ev > 0 ? "+" : "−") + Math.Abs(ev).ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>A tone's SNR as its patch shows it.</summary>
    /// <param name="tone">The tone.</param>
    public static string SnrWord(SwatchTone tone) => Number(tone.Snr);

    /// <summary>The number that <c>--snr</c> takes to end at a tone.</summary>
    /// <param name="tone">The tone.</param>
    public static string CriterionWord(SwatchTone tone) => Number(tone.CriterionSnr);

    /// <summary>What to do with the number.</summary>
    /// <param name="model">The swatch.</param>
    /// <param name="tone">The tone chosen.</param>
    public static string Command(SwatchModel model, SwatchTone tone)
    {
        string size = model.Delivery is { } d ? string.Create(CultureInfo.InvariantCulture, $" --delivery {d.WidthPixels}x{d.HeightPixels}") : string.Empty;
        return $"sensorlab characterise PROFILE.json --out OTHER.json --snr {CriterionWord(tone)}{size}";
    }

    /// <summary>A patch in words.</summary>
    /// <param name="tone">The tone.</param>
    /// <param name="isLifted">Whether it is lifted to middle grey.</param>
    public static string Alternative(SwatchTone tone, bool isLifted) =>
        $"An even tone at {EvWord(tone.Ev)} EV with noise, SNR {SnrWord(tone)}{(isLifted ? ", lifted to middle grey" : string.Empty)}";

    private static bool HasLines(SwatchTone tone) => tone.CriterionSnr > tone.Snr * (1 + LineShare);

    private static string Number(double snr) => snr.ToString(snr >= 100 ? "0" : snr >= 10 ? "0.0" : "0.00", CultureInfo.InvariantCulture);
}
