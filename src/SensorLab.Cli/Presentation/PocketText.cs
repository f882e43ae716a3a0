using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Cli.Presentation;

/// <summary>What a pocket sheet holds, in a few lines.</summary>
internal static class PocketText
{
    /// <summary>The lines: a body each, what is missing on it, and where it lies.</summary>
    /// <param name="profiles">The profiles.</param>
    /// <param name="file">The sheet.</param>
    public static IEnumerable<string> Lines(IReadOnlyList<SensorProfile> profiles, string file) =>
        [.. PocketSheet.Of(profiles).Bodies.SelectMany(LinesOf), .. OntoThePhone(file), $"Pocket sheet: {file}"];

    private static IEnumerable<string> OntoThePhone(string file) => file.EndsWith(".html", StringComparison.OrdinalIgnoreCase)
        ? WrappedText.Lines("Onto the phone: send the file by cable, mail or a shared folder, and open it there with a browser; it needs no network.")
        : [];

    private static IEnumerable<string> LinesOf(PocketBody body)
    {
        string isos = string.Join(", ", body.Isos.Select(iso => iso.Iso.ToString(CultureInfo.InvariantCulture)));
        string whose = body.Kinship switch
        {
            PocketKinship.InHand => "the body in hand",
            PocketKinship.InHandOtherState => "the body in hand, in another state",
            PocketKinship.OtherBody => "not the body in hand",
            _ => "no serial number tells whether it is the body in hand",
        };
        foreach (string line in BodyLine.Lines(body.Body, whose, $"ISO {isos}"))
        {
            yield return line;
        }

        foreach (IGrouping<string, int> caution in body.Isos.SelectMany(iso => iso.Cautions.Select(words => (iso.Iso, words))).GroupBy(c => c.words, c => c.Iso))
        {
            string at = string.Join(", ", caution.Select(iso => iso.ToString(CultureInfo.InvariantCulture)));
            foreach (string line in WrappedText.Lines(PlacementText.Printable($"ISO {at}: {caution.Key}"), "  ", "    "))
            {
                yield return line;
            }
        }
    }
}
