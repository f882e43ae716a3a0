using System.Text;
using SensorLab.Profiles;

namespace SensorLab.Publishing.Bundles;

/// <summary>The words about a bundle, for whoever opens it without knowing what it is.</summary>
internal static class BundleReadme
{
    /// <summary>The path in the bundle.</summary>
    public const string Path = "README.txt";

    /// <summary>The words.</summary>
    /// <param name="profile">The profile as it is published.</param>
    /// <param name="manifest">The manifest, its files not yet listed.</param>
    public static byte[] Of(SensorProfile profile, BundleManifest manifest) => Encoding.UTF8.GetBytes(string.Concat(Lines(profile, manifest).Select(line => line + "\n")));

    private static IEnumerable<string> Lines(SensorProfile profile, BundleManifest manifest) =>
    [
        $"Sensor profile: {NameOf(profile.Body)}",
        string.Empty,
        "What this camera body's sensor can hold: stops above and below middle grey at",
        "each ISO measured, every figure with its uncertainty. Begin with",
        "report/report.html, or print report/report.pdf.",
        string.Empty,
        "  profile.json                the sensor profile, for other programs",
        "  sensor-profile.schema.json  what may stand in it (JSON Schema 2020-12)",
        "  pocket.html, pocket.pdf     the pocket sheet, for a phone without network and on",
        "                              paper: where to place a tone, what then clips",
        "  report/                     page, document, charts, tables as CSV",
        "  dng-noise-profiles.csv      noise as the DNG tag NoiseProfile states it, per",
        "  dng-noise-profiles.json     ISO and channel: sigma = sqrt(scale x + offset)",
        "  manifest.json               every file with its size and SHA-256",
        "  manifest.json.jws           where signed: a JSON Web Signature of it (RFC 7515)",
        string.Empty,
        "Whether nothing was changed, and who signed it:",
        string.Empty,
        "  sensorlab verify BUNDLE.zip --trust PUBLIC.pem",
        .. Findings(manifest),
        .. LeftOut(manifest),
        string.Empty,
        "The figures are the sensor's alone; flare of lens and scene takes from both ends.",
        "They hold for this body, firmware and recording mode.",
    ];

    private static IEnumerable<string> Findings(BundleManifest manifest) => manifest.AcceptedFindings.Count == 0 ? [] :
    [
        string.Empty,
        "Published with findings that put figures in doubt or leave some out; the report",
        "says which, and what to do:",
        .. manifest.AcceptedFindings.Select(code => $"  {code}"),
    ];

    private static IEnumerable<string> LeftOut(BundleManifest manifest) => !manifest.Anonymous ? [] :
    [
        string.Empty,
        "Left out on purpose:",
        .. manifest.LeftOut.Select(item => $"  - {item}"),
        "Maker, model, firmware, conditions and figures are as measured. Whoever holds",
        "another profile of the same body may know it again by its figures.",
    ];

    private static string NameOf(BodyIdentity body)
    {
        string name = string.Join(' ', new[] { body.Maker, body.Model }.Where(part => !string.IsNullOrWhiteSpace(part)));
        string firmware = string.IsNullOrWhiteSpace(body.Firmware) ? string.Empty : $", firmware {body.Firmware}";
        return string.Concat(((name.Length > 0 ? name : "a body that its frames do not name") + firmware).Select(c => char.IsControl(c) ? ' ' : c));
    }
}
