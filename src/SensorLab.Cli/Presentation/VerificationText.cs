using System.Globalization;
using SensorLab.Publishing.Verification;

namespace SensorLab.Cli.Presentation;

/// <summary>What was found of a bundle, in 80 columns: valid or not, every reason, who signed it, what is in it.</summary>
internal static class VerificationText
{
    private const int FaultsNamed = 20;

    private const string Indent = "  ";

    /// <summary>The lines.</summary>
    public static IReadOnlyList<string> Lines(BundleVerification result, string path) =>
    [
        .. WrappedText.Lines(Heading(result, path), string.Empty, Indent),
        .. result.Faults.Take(FaultsNamed).SelectMany(FaultLines),
        .. result.Faults.Count > FaultsNamed ? [string.Create(CultureInfo.InvariantCulture, $"- and {result.Faults.Count - FaultsNamed} reasons more; --json lists them all")] : Array.Empty<string>(),
        .. result.Notes.SelectMany(NoteLines),
        .. SignatureLines(result),
        .. result.IsWhole ? ContentLines(result) : [],
    ];

    private static string Heading(BundleVerification result, string path) => result switch
    {
        { IsValid: true, Manifest: { } manifest } => string.Create(CultureInfo.InvariantCulture, $"{path}: whole, {manifest.Files.Count} files; nothing was changed, added, renamed or taken away."),
        { IsWhole: true } => $"{path}: NOT VALID. It is whole, but:",
        _ => $"{path}: NOT VALID.",
    };

    private static IEnumerable<string> FaultLines(BundleFault fault)
    {
        string file = fault.File is null ? string.Empty : $", {fault.File}";
        return WrappedText.Lines(Printable($"{fault.Code}{file}: {fault.Message}"), "- ", Indent);
    }

    private static IEnumerable<string> NoteLines(BundleFault note) => WrappedText.Lines(Printable($"Note, {note.Code}: {note.Message}"), string.Empty, Indent);

    private static IEnumerable<string> SignatureLines(BundleVerification result) => result switch
    {
        { Signer: { } key, IsTrusted: true } => [$"Signed by the trusted key, {key.Thumbprint}"],
        { Signer: { } key, IsTrusted: null } =>
        [
            $"Signed by the key {key.Thumbprint}",
            .. WrappedText.Lines("Anyone can make a key: only --trust PUBLIC.pem, with a key that you had from its owner, tells whose it is.", Indent, Indent),
        ],
        { IsSigned: false, Manifest: not null, IsTrusted: null } =>
        [
            .. WrappedText.Lines("Not signed: whoever changed it on purpose could have made it whole again.", string.Empty, Indent),
        ],
        _ => [],
    };

    private static IEnumerable<string> ContentLines(BundleVerification result)
    {
        if (result is not { Profile: { } profile, Manifest: { } manifest })
        {
            return [];
        }

        string isos = string.Join(", ", profile.IsoProfiles.Select(iso => iso.Iso.ToString(CultureInfo.InvariantCulture)));
        return
        [
            string.Empty,
            .. BodyLine.Lines(profile.Body, $"ISO {isos}"),
            .. manifest.Anonymous ? ["Anonymous: serial number, file names and times were left out"] : Array.Empty<string>(),
            .. manifest.AcceptedFindings.Count == 0 ? [] : WrappedText.Lines(Printable(string.Join(", ", manifest.AcceptedFindings)), "Published with findings: ", Indent),
            "SHA-256 of its manifest, the same whether signed or not:",
            $"{Indent}{result.ManifestSha256}",
        ];
    }

    // Names in a hostile archive may hold anything: they must neither steer the terminal nor turn the line round.
    private static string Printable(string text) => string.Concat(text.Select(c => char.IsControl(c) || char.GetUnicodeCategory(c) == UnicodeCategory.Format ? '?' : c));
}
