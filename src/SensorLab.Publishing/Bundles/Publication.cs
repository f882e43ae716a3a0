using System.Security.Cryptography;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Keys;

namespace SensorLab.Publishing.Bundles;

/// <summary>Publishes a sensor profile: one zip with everything that a team needs, hashed, signed on request.</summary>
/// <remarks>
/// The same profile and options give the same bytes on a system with the same font, the signature apart, which is the last
/// file. Files are stored uncompressed, in the order of their paths, then the manifest, then the signature.
/// </remarks>
public static class Publication
{
    /// <summary>Makes the bundle and writes it, whole or not at all.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="path">The bundle; an existing one stays until the new one is whole.</param>
    /// <param name="options">How it is published.</param>
    /// <param name="cancellation">Cancels before the file is put in place.</param>
    /// <returns>What was published.</returns>
    /// <exception cref="FindingsNotAcceptedException">The profile has warnings or refusals, and the options do not accept them.</exception>
    /// <exception cref="ProfileFormatException">The profile is of a later minor format version, of which parts would be lost.</exception>
    /// <exception cref="Reports.FontsMissingException">The system has no font with letters.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The path is a folder, or may not be written.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing half-written is left.</exception>
    public static PublishedBundle WriteFile(SensorProfile profile, string path, PublishingOptions options, CancellationToken cancellation = default)
    {
        PublishedBundle bundle = Make(profile, options, cancellation);
        WholeFile.Write(path, stream => stream.Write(bundle.Bytes.Span), cancellation);
        return bundle;
    }

    /// <summary>Makes the bundle.</summary>
    /// <inheritdoc cref="WriteFile"/>
    public static PublishedBundle Make(SensorProfile profile, PublishingOptions options, CancellationToken cancellation = default)
    {
        RequireWholeKnowledge(profile);
        Finding[] open = [.. profile.Findings.Where(f => f.Severity > FindingSeverity.Note)];
        if (open.Length > 0 && !options.AcceptsFindings)
        {
            throw new FindingsNotAcceptedException(open);
        }

        SensorProfile published = options.IsAnonymous ? AnonymousProfile.Of(profile) : profile;
        BundleManifest manifest = Heading(open, options);
        ArchiveFile[] files =
        [
            .. BundleFiles.Of(published, cancellation)
                .Append(new ArchiveFile(BundleReadme.Path, BundleReadme.Of(published, manifest)))
                .OrderBy(file => file.Path, StringComparer.Ordinal),
        ];
        cancellation.ThrowIfCancellationRequested();
        manifest = manifest with { Files = [.. files.Select(Entry)] };
        byte[] signed = ManifestJson.BytesOf(manifest);
        ArchiveFile[] seal = options.Key is { } key ? [new ArchiveFile(BundleManifest.SignaturePath, DetachedSignature.Of(signed, key))] : [];
        CanonicalArchive archive = CanonicalArchive.Of([.. files, new ArchiveFile(BundleManifest.Path, signed), .. seal]);
        return new PublishedBundle(archive.Bytes, manifest, options.Key?.Public, published);
    }

    private static BundleManifest Heading(Finding[] open, PublishingOptions options) => new()
    {
        Format = BundleManifest.FormatName,
        FormatVersion = BundleManifest.CurrentFormatVersion,
        Software = new SoftwareIdentity("SensorLab", typeof(Publication).Assembly.GetName().Version!.ToString(3)),
        Anonymous = options.IsAnonymous,
        LeftOut = options.IsAnonymous ? AnonymousProfile.LeftOut : [],
        AcceptedFindings = [.. open.Select(f => f.Code).Distinct().Order(StringComparer.Ordinal)],
        Files = [],
    };

    private static ManifestFile Entry(ArchiveFile file) => new(file.Path, file.Bytes.Length, Convert.ToHexStringLower(SHA256.HashData(file.Bytes.Span)));

    // What a later minor version adds is ignored when read, and would be missing from a bundle that claims that version.
    private static void RequireWholeKnowledge(SensorProfile profile)
    {
        if (profile.FormatVersion != SensorProfile.CurrentFormatVersion && new Version(profile.FormatVersion) > new Version(SensorProfile.CurrentFormatVersion))
        {
            throw new ProfileFormatException(
                $"The profile's formatVersion is {profile.FormatVersion}, and this program knows {SensorProfile.CurrentFormatVersion}: what is new in it would be lost.",
                "Update SensorLab, and publish then.");
        }
    }
}
