using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles.Placement;

namespace SensorLab.Reports.Pocket;

/// <summary>What the pocket sheet says, on page and paper.</summary>
internal static class PocketWords
{
    public const string Flare = "Sensor only: flare of lens and scene comes on top.";

    public const string Uncertainty = "± is half the 95 % interval in stops: sensor, meter, shutter and lamp together.";

    public const string Criterion = "Texture: SNR 10 of one pixel; clean: SNR 20; tone without texture: SNR 4. Bright texture keeps ⅔ EV below the clip.";

    public const string OntoThePhone = "Onto the phone: send this file to it by cable, mail or a folder that both share, keep it among the phone's files, and open it there with a browser. It needs no network. A preview that runs no scripts shows the tables alone.";

    public const string OtherLight = "For the light of the set: under another, red or blue may clip first, and headroom is less.";

    public const string NoPreviews = "No preview was measured: what the camera's warnings mean is not known.";

    /// <summary>How the sheet is used, in steps.</summary>
    public static IReadOnlyList<string> Use { get; } =
    [
        "Spot-meter the brightest surface that must keep its texture.",
        "Expose so that it reads what stands under \"Bright texture up to\", or less.",
        "Spot-meter the darkest surface that matters: above \"Texture down to\" it keeps texture.",
        "Never point the lens, or your eye through it, at the sun or a lit lamp.",
    ];

    /// <summary>The body's name.</summary>
    /// <param name="body">The body.</param>
    public static string Name(PocketBody body)
    {
        string name = ForeignText.OneLine($"{body.Body.Maker} {body.Body.Model}");
        return name.Length > 0 ? name : "Body not named by its frames";
    }

    /// <summary>Serial number, firmware, recording mode and date, with what the frames do not say said.</summary>
    /// <param name="body">The body.</param>
    public static IReadOnlyList<string> State(PocketBody body)
    {
        string[] mode =
        [
            .. new[]
            {
                body.RecordingMode.BitDepth is { } bits ? string.Create(CultureInfo.InvariantCulture, $"{bits} bit") : null,
                ForeignText.OneLine(body.RecordingMode.Compression),
                ForeignText.OneLine(body.RecordingMode.Shutter) is { Length: > 0 } shutter ? $"{shutter} shutter" : null,
                ForeignText.OneLine(body.RecordingMode.Drive),
                ForeignText.OneLine(body.RecordingMode.Crop) is { Length: > 0 } crop ? $"crop {crop}" : null,
            }.OfType<string>().Where(part => part.Length > 0),
        ];
        return
        [
            Known("no. ", body.Body.SerialNumber, "serial number not known"),
            Known("firmware ", body.Body.Firmware, "firmware not known"),
            mode.Length > 0 ? string.Join(", ", mode) : "recording mode not known",
            body.CreatedUtc is { } date ? date.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "date not known",
        ];
    }

    /// <summary>Whose body it is; empty for the body in hand.</summary>
    /// <param name="body">The body.</param>
    public static string Kinship(PocketBody body) => body.Kinship switch
    {
        PocketKinship.InHandOtherState => "The body in hand by its serial number, in another state.",
        PocketKinship.OtherBody => "Not the body in hand: a colleague's.",
        PocketKinship.Unknown => "No serial number tells whether this is the body in hand.",
        _ => string.Empty,
    };

    /// <summary>What is missing or in doubt, each said once with its ISOs.</summary>
    /// <param name="body">The body.</param>
    public static IEnumerable<string> Cautions(PocketBody body) =>
        from caution in body.Isos.SelectMany(iso => iso.Cautions.Select(words => (iso.Iso, Words: words)))
        group caution.Iso by caution.Words into same
        let isos = string.Join(", ", same.Select(iso => iso.ToString(CultureInfo.InvariantCulture)))
        select same.Count() == body.Isos.Count ? same.Key : $"ISO {isos}: {same.Key}";

    private static string Known(string prefix, string? text, string otherwise) => ForeignText.OneLine(text) is { Length: > 0 } line
        ? line.StartsWith(prefix, StringComparison.OrdinalIgnoreCase) ? line : prefix + line
        : otherwise;
}
