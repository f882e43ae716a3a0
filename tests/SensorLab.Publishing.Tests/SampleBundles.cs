using SensorLab.Profiles;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;
using SensorLab.TestData;

namespace SensorLab.Publishing.Tests;

/// <summary>Bundles for the tests: whole ones of a sample profile, and small ones that are quickly tampered with.</summary>
internal static class SampleBundles
{
    public static SigningKey Key { get; } = SigningKey.Create();

    public static PublishingOptions Accepting { get; } = new() { AcceptsFindings = true };

    // Initialised in the order of the text: after the key and the options.
    private static readonly Lazy<PublishedBundle> UnsignedBundle = new(() => Publication.Make(SampleProfiles.Monochrome(), Accepting));

    private static readonly Lazy<PublishedBundle> SignedBundle = new(() => Publication.Make(SampleProfiles.Monochrome(), Accepting with { Key = Key }));

    /// <summary>A whole bundle with its report.</summary>
    public static PublishedBundle Unsigned => UnsignedBundle.Value;

    /// <summary>The same, signed.</summary>
    public static PublishedBundle Signed => SignedBundle.Value;

    /// <summary>A bundle without its report: some 60 kB.</summary>
    public static byte[] Small(bool isSigned)
    {
        ArchiveFile[] files = [.. Contents(Unsigned).Where(file => !file.Path.StartsWith("report/", StringComparison.Ordinal) && file.Path is not BundleManifest.Path)];
        return With(files, isSigned ? Key : null);
    }

    /// <summary>A bundle of other files with a manifest that fits them.</summary>
    public static byte[] With(IReadOnlyList<ArchiveFile> files, SigningKey? key = null, Func<BundleManifest, BundleManifest>? change = null)
    {
        BundleManifest manifest = Unsigned.Manifest with { Files = [.. files.Select(Entry)] };
        byte[] bytes = ManifestJson.BytesOf(change is null ? manifest : change(manifest));
        ArchiveFile[] seal = key is null ? [] : [new ArchiveFile(BundleManifest.SignaturePath, DetachedSignature.Of(bytes, key))];
        return CanonicalArchive.Of([.. files, new ArchiveFile(BundleManifest.Path, bytes), .. seal]).Bytes;
    }

    /// <summary>The files of a bundle, manifest and signature too.</summary>
    public static IReadOnlyList<ArchiveFile> Contents(PublishedBundle bundle) => Contents(bundle.Bytes);

    public static IReadOnlyList<ArchiveFile> Contents(ReadOnlyMemory<byte> bundle) => ArchiveContents.Of(bundle, ArchiveDirectory.Read(bundle.Span)).Files;

    /// <summary>A manifest's line for a file.</summary>
    public static ManifestFile Entry(ArchiveFile file) =>
        new(file.Path, file.Bytes.Length, Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(file.Bytes.Span)));

    /// <summary>A profile without warnings.</summary>
    public static SensorProfile Clean() => SampleProfiles.Monochrome() with { Findings = [.. SampleProfiles.Monochrome().Findings.Where(f => f.Severity == FindingSeverity.Note)] };
}
