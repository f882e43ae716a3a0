using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Retest.Confirm;

namespace SensorLab.Cli.Presentation;

/// <summary>A confirmation as a photographer reads it: the verdict, what differs, what is open, what agrees, what would tell more.</summary>
internal static class ConfirmText
{
    /// <summary>The lines.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="result">The result.</param>
    public static IEnumerable<string> Lines(SensorProfile profile, ConfirmResult result) =>
    [
        .. BodyLine.Lines(profile.Body, profile.RecordingMode.Description),
        string.Empty,
        result.Verdict switch
        {
            ConfirmVerdict.Consistent => "Consistent: the frames agree with this profile.",
            ConfirmVerdict.Different => "Different: the frames do not agree with this profile.",
            _ => "Cannot tell: see what would.",
        },
        .. Of(result, ConfirmVerdict.Different, "Differs:"),
        .. Of(result, ConfirmVerdict.Undecided, "Open:"),
        .. Agreeing(result),
        .. result.Notes.SelectMany(note => WrappedText.Lines(note).Prepend(string.Empty)),
        .. result.Wanted.Count == 0 ? [] : result.Wanted.SelectMany(w => WrappedText.Lines("  " + w, "  ", "    ")).Prepend("Would tell more:").Prepend(string.Empty),
    ];

    // What agrees needs no numbers: they are in the document.
    private static IEnumerable<string> Agreeing(ConfirmResult result)
    {
        string[] named =
        [
            .. result.Checks
                .Where(c => c.Verdict == ConfirmVerdict.Consistent)
                .GroupBy(c => c.Check)
                .Select(g => g.Any(c => c.Iso is not null)
                    ? string.Create(CultureInfo.InvariantCulture, $"{WordsOf(g.Key)} at ISO {string.Join(", ", g.Select(c => c.Iso).OfType<int>().Distinct().Order())}")
                    : WordsOf(g.Key)),
        ];
        return named.Length == 0 ? [] : [string.Empty, "Agrees:", .. named.Select(name => "  " + name)];
    }

    private static string WordsOf(string check) => check switch
    {
        "body" => "body",
        "firmware" => "firmware",
        "recordingMode" => "recording mode",
        "declaredBlack" => "declared black",
        "declaredWhite" => "declared white",
        "codeSteps" => "spacing of codes",
        "clipCode" => "code of the clip",
        "ratioNearClip" => "channels' ratio near the clip",
        "maskedBlack" => "black of masked photosites",
        "maskedNoise" => "noise of masked photosites",
        _ => FigureName.WordsOf(check),
    };

    // Channels that say the same are one line.
    private static IEnumerable<string> Of(ConfirmResult result, ConfirmVerdict verdict, string title)
    {
        string[] lines =
        [
            .. result.Checks
                .Where(c => c.Verdict == verdict)
                .GroupBy(c => (c.Check, c.Iso))
                .SelectMany(g => WrappedText.Lines(LineOf([.. g]), "  ", "    ")),
        ];
        return lines.Length == 0 ? [] : [string.Empty, title, .. lines];
    }

    private static string LineOf(ConfirmCheck[] channels)
    {
        ConfirmCheck first = channels[0];
        string iso = first.Iso is { } setting ? string.Create(CultureInfo.InvariantCulture, $"ISO {setting}, ") : string.Empty;
        string sides = string.Join("; ", channels.Select(c => $"{(c.Channel is null ? string.Empty : c.Channel + " ")}{c.Found}{(c.Found.ToString() == c.Expected.ToString() ? string.Empty : $" ({c.Expected} in the profile)")}").Distinct());
        string message = channels.Select(c => c.Message).Distinct().Count() == 1 ? $". {first.Message}" : string.Empty;
        return PlacementText.Printable($"{iso}{WordsOf(first.Check)}: {sides}{message}");
    }
}
