using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Cli.Presentation;

/// <summary>A placement as a photographer reads it in ten seconds, in 80 columns.</summary>
internal static class PlacementText
{
    private const int LabelWidth = 16;

    /// <summary>Changes smaller than this are none: no camera steps finer.</summary>
    private const double NoChangeEv = 0.05;

    /// <summary>The lines of an answer.</summary>
    public static IReadOnlyList<string> Lines(SensorProfile profile, PlacementQuestion question, PlacementAnswer answer) =>
    [
        .. WrappedText.Lines(HeadingOf(profile, question)),
        string.Empty,
        .. ToneLines(answer),
        .. Row("Bright texture", $"{Signed(answer.BrightestTexturedEv)} at most by the spot meter (guard {Number(question.GuardEv)})"),
        .. Row("Dark texture", DarkOf(answer)),
        .. SceneLines(question, answer),
        .. ClipLines(question, answer),
        .. PreviewTable.Lines(answer),
        string.Empty,
        .. WrappedText.Lines("± is half the 95 % interval in stops: sensor, meter, shutter and lamp together."),
        .. answer.Cautions.SelectMany(c => WrappedText.Lines(Printable(c))),
    ];

    /// <summary>Text without control characters: profiles may hold anything.</summary>
    public static string Printable(string text) => string.Concat(text.Select(c => char.IsControl(c) || char.GetUnicodeCategory(c) == UnicodeCategory.Format ? ' ' : c));

    /// <summary>A figure in stops with its sign.</summary>
    public static string Signed(Figure? figure) => figure?.Value > 0 ? "+" + StopText.Of(figure) : StopText.Of(figure);

    private static string HeadingOf(SensorProfile profile, PlacementQuestion question)
    {
        string body = string.Join(' ', new[] { profile.Body.Maker, profile.Body.Model }.OfType<string>());
        string light = question.Light is null ? string.Empty : $", {question.Light} light";
        return Printable(string.Create(
            CultureInfo.InvariantCulture, $"{(body.Length > 0 ? body : "Unnamed body")} at ISO {question.Iso}{light}: a tone at {Signed(question.ToneEv)} EV"));
    }

    private static IEnumerable<string> ToneLines(PlacementAnswer answer)
    {
        string first = answer.LimitingChannel is { } channel ? $" ({ColourOf(channel)})" : string.Empty;
        string clips = answer.Clips switch
        {
            true => $"CLIPS: {StopText.Of(answer.HeadroomEv)} stops of headroom{first}",
            false => $"{StopText.Of(answer.HeadroomEv)} stops to the clip{first}",
            null when answer.HeadroomEv is null => "not known",
            null => $"{StopText.Of(answer.HeadroomEv)} stops: whether it clips is not known",
        };
        string snr = answer.Snr is { Value: { } value } figure
            ? string.Create(CultureInfo.InvariantCulture, $"{value:0.#} ({figure.Lower95:0.#} to {figure.Upper95:0.#}) of one pixel")
            : answer.Clips == true ? "none: nothing is recorded above the clip" : "not known here";
        return [.. Row("Headroom", clips), .. Row("SNR", snr)];
    }

    private static string DarkOf(PlacementAnswer answer) => string.Join("; ",
        $"down to {Signed(answer.DarkestTexturedEv)} (SNR 10)",
        $"clean to {Signed(answer.DarkestCleanEv)} (SNR 20)",
        $"tone to {Signed(answer.DarkestToneEv)} (SNR 4)");

    private static IEnumerable<string> SceneLines(PlacementQuestion question, PlacementAnswer answer)
    {
        if (question.Scene is not { } scene || answer.Scene is not { } fit)
        {
            return [];
        }

        string room = StopText.Of(fit.RoomEv);
        string verdict = fit.Fits switch
        {
            true => $"fits, {room} stops to spare",
            false => $"does NOT fit: {StopText.Of(Negated(fit.RoomEv))} stops too long",
            null => "not known whether it fits: an end is only a bound",
        };
        string set = fit.ExposureShiftEv switch
        {
            null => string.Empty,
            { } shift when Math.Abs(shift) < NoChangeEv => fit.Fits == false ? "; as metered, the bright end is held" : "; expose as metered",
            { } shift => $"; set {Number(Math.Abs(shift))} stops {(shift > 0 ? "more" : "less")} light{(fit.Fits == false ? " to hold the bright end" : string.Empty)}",
        };
        return Row("Scene", $"{Signed(scene.LowEv)} to {Signed(scene.HighEv)}: {verdict}{set}");
    }

    private static IEnumerable<string> ClipLines(PlacementQuestion question, PlacementAnswer answer)
    {
        if (answer.ExposeToClip.CorrectionEv is not { } correction)
        {
            return Row("Expose to clip", "not known");
        }

        string what = question.Scene is null ? "this tone" : "the brightest reading";
        string gain = answer.ExposeToClip.GainEv is { } figure ? $"shadows' SNR {GainOf(figure)}; " : string.Empty;
        return Row("Expose to clip", $"{what} moved up to the clip: {gain}every frame then needs {Signed(correction)} EV in the converter");
    }

    private static string GainOf(Figure gain) => gain.Value < 0 ? $"loses {StopText.Of(Negated(gain))} stops" : $"gains {StopText.Of(gain)} stops";

    private static IEnumerable<string> Row(string label, string text) =>
        WrappedText.Lines(text, label.PadRight(LabelWidth), new string(' ', LabelWidth));

    private static Figure? Negated(Figure? figure) => figure is null ? null : new Figure
    {
        Value = -figure.Value,
        StandardUncertainty = figure.StandardUncertainty,
        Lower95 = -figure.Upper95,
        Upper95 = -figure.Lower95,
        AtLeast = -figure.AtMost,
        AtMost = -figure.AtLeast,
    };

    private static string ColourOf(string channel) => channel switch
    {
        ChannelName.Red => "red first",
        ChannelName.Blue => "blue first",
        ChannelName.Monochrome => "monochrome",
        _ => "green first",
    };

    private static string Signed(double ev) => ev.ToString("+0.##;-0.##;0", CultureInfo.InvariantCulture);

    private static string Number(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
