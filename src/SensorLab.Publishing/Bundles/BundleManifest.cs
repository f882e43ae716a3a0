using SensorLab.Profiles;

namespace SensorLab.Publishing.Bundles;

/// <summary>What a bundle holds: the one file that is signed, and through its hashes all others.</summary>
public sealed record BundleManifest
{
    /// <summary>The value of <see cref="Format"/>.</summary>
    public const string FormatName = "sensorlab-bundle";

    /// <summary>The version that this library writes.</summary>
    public const string CurrentFormatVersion = "1.0";

    /// <summary>The manifest's path in the bundle.</summary>
    public const string Path = "manifest.json";

    /// <summary>The signature's path in the bundle.</summary>
    public const string SignaturePath = "manifest.json.jws";

    /// <summary>Always <see cref="FormatName"/>.</summary>
    public required string Format { get; init; }

    /// <summary>Major.minor; readers ignore properties that they don't know and refuse another major version.</summary>
    public required string FormatVersion { get; init; }

    /// <summary>What published the bundle.</summary>
    public required SoftwareIdentity Software { get; init; }

    /// <summary>Whether serial number, file names and times were left out.</summary>
    public required bool Anonymous { get; init; }

    /// <summary>What was left out, in words.</summary>
    public required IReadOnlyList<string> LeftOut { get; init; }

    /// <summary>Codes of the warnings and refusals that the profile is published with, each once.</summary>
    public required IReadOnlyList<string> AcceptedFindings { get; init; }

    /// <summary>Every file but the manifest and its signature, in the order of their paths' characters.</summary>
    public required IReadOnlyList<ManifestFile> Files { get; init; }
}
