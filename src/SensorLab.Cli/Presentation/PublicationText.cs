using System.Globalization;
using SensorLab.Publishing.Bundles;

namespace SensorLab.Cli.Presentation;

/// <summary>What was published, in 80 columns.</summary>
internal static class PublicationText
{
    private const string Indent = "  ";

    /// <summary>The lines.</summary>
    public static IReadOnlyList<string> Lines(PublishedBundle bundle, string path) =>
    [
        string.Create(CultureInfo.InvariantCulture, $"Bundle: {path} ({bundle.Manifest.Files.Count} files, {ByteText.Of(bundle.Bytes.Length)})"),
        bundle.Signer is { } key
            ? $"Signed: by the key {key.Thumbprint}"
            : "Signed: no; --key PRIVATE.pem signs it, and sensorlab key makes a key",
        .. bundle.Manifest.AcceptedFindings.Count == 0 ? [] : WrappedText.Lines(string.Join(", ", bundle.Manifest.AcceptedFindings), "Published with findings: ", Indent),
        .. bundle.Manifest.Anonymous ? LeftOut(bundle.Manifest) : [],
    ];

    private static IEnumerable<string> LeftOut(BundleManifest manifest) =>
    [
        "Left out:",
        .. manifest.LeftOut.SelectMany(item => WrappedText.Lines(item, "- ", Indent)),
        .. WrappedText.Lines("Maker, model, firmware, conditions and figures are in it as measured. Whoever holds another profile of the same body may know it again by its figures; read the words on light and lens before you pass it on."),
    ];
}
