using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Retest.Confirm;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of a confirmation.</summary>
/// <param name="Verdict">"consistent", "different" or "undecided".</param>
/// <param name="Checks">Every check.</param>
/// <param name="Wanted">The frames that would tell what is open, or more.</param>
/// <param name="Notes">What the verdict rests on.</param>
/// <param name="Findings">Files that could not be read.</param>
internal sealed record ConfirmDocument(
    string Verdict, IReadOnlyList<ConfirmDocument.CheckEntry> Checks, IReadOnlyList<string> Wanted, IReadOnlyList<string> Notes, IReadOnlyList<Finding> Findings)
{
    /// <summary>Writes the document.</summary>
    public static void Write(TextWriter output, ConfirmResult result, IReadOnlyList<Finding> findings)
    {
        var document = new ConfirmDocument(
            WordOf(result.Verdict),
            [.. result.Checks.Select(c => new CheckEntry(c.Check, c.Iso, c.Channel, c.Expected, c.Found, WordOf(c.Verdict), c.Message))],
            result.Wanted,
            result.Notes,
            findings);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.ConfirmDocument) + "\n");
    }

    /// <summary>A verdict in the contract's words.</summary>
    public static string WordOf(ConfirmVerdict verdict) => verdict switch
    {
        ConfirmVerdict.Consistent => "consistent",
        ConfirmVerdict.Different => "different",
        _ => "undecided",
    };

    /// <summary>A check.</summary>
    internal sealed record CheckEntry(string Check, int? Iso, string? Channel, ShownValue Expected, ShownValue Found, string Verdict, string Message);
}
