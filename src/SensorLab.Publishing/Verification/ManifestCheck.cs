using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json;
using SensorLab.Files;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;

namespace SensorLab.Publishing.Verification;

/// <summary>Compares an archive's files with its manifest.</summary>
internal static class ManifestCheck
{
    private const int Major = 1;

    private static readonly DocumentSchema Domains = DocumentSchema.OfResource(typeof(ManifestCheck), "bundle-manifest.schema.json");

    /// <summary>Reads a manifest.</summary>
    /// <param name="bytes">Its bytes.</param>
    /// <returns>The manifest, or what is wrong with it.</returns>
    public static (BundleManifest? Manifest, BundleFault? Fault) Read(ReadOnlyMemory<byte> bytes)
    {
        BundleManifest manifest;
        try
        {
            manifest = ManifestJson.ManifestOf(bytes.Span);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return (null, Invalid("The manifest cannot be read: it is damaged, or none of a bundle's."));
        }

        string[] version = manifest.FormatVersion.Split('.');
        bool isVersion = version.Length == 2 && version.All(part => int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out _));
        return manifest.Format != BundleManifest.FormatName || !isVersion ? (null, Invalid("The manifest is not a bundle's: its format or formatVersion is another."))
            : int.Parse(version[0], CultureInfo.InvariantCulture) != Major ? (null, Invalid($"The bundle is of format version {manifest.FormatVersion}, and this program reads version {Major}: update SensorLab."))
            : manifest.Files.Any(file => file is null) ? (null, Invalid("The manifest lists a file that is null."))
            : DomainFault(bytes) is { } fault ? (null, fault)
            : (manifest, null);
    }

    private static BundleFault? DomainFault(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            Domains.Require(bytes);
            return null;
        }
        catch (DocumentException e)
        {
            return Invalid($"The manifest is not sound. {e.Message}");
        }
    }

    /// <summary>Every file that is not as the manifest has it.</summary>
    /// <param name="files">The archive's files, without manifest and signature; their paths are distinct.</param>
    /// <param name="listed">The manifest's.</param>
    public static IEnumerable<BundleFault> Compare(IReadOnlyList<ArchiveFile> files, IReadOnlyList<ManifestFile> listed)
    {
        string[] twice = [.. listed.GroupBy(file => file.Path, StringComparer.OrdinalIgnoreCase).Where(group => group.Count() > 1).Select(group => group.Key)];
        if (twice.Length > 0)
        {
            return twice.Select(path => new BundleFault(BundleFaultCode.DuplicateName, path, null, "The manifest lists it more than once."));
        }

        var there = files.ToDictionary(file => file.Path, file => Convert.ToHexStringLower(SHA256.HashData(file.Bytes.Span)), StringComparer.Ordinal);
        ManifestFile[] missing = [.. listed.Where(file => !there.ContainsKey(file.Path))];
        HashSet<string> known = [.. listed.Select(file => file.Path)];
        string[] added = [.. files.Select(file => file.Path).Where(path => !known.Contains(path))];
        (ManifestFile File, string Path)[] renamed = [.. Renamed(missing, added, there)];
        return
        [
            .. listed.Where(file => there.TryGetValue(file.Path, out string? hash) && hash != file.Sha256).Select(Changed),
            .. renamed.Select(r => new BundleFault(BundleFaultCode.Renamed, r.Path, null, $"It was published as {r.File.Path}.")),
            .. missing.Except(renamed.Select(r => r.File)).Select(file => new BundleFault(BundleFaultCode.Missing, file.Path, null, "It was published, and is not there.")),
            .. added.Except(renamed.Select(r => r.Path)).Select(path => new BundleFault(BundleFaultCode.Added, path, null, "It was not published with this bundle.")),
            .. listed.Where(file => there.GetValueOrDefault(file.Path) == file.Sha256 && files.First(f => f.Path == file.Path).Bytes.Length != file.SizeBytes)
                .Select(file => new BundleFault(BundleFaultCode.ManifestInvalid, file.Path, null, "The manifest states another size for the same content.")),
        ];
    }

    private static BundleFault Changed(ManifestFile file) => new(BundleFaultCode.Changed, file.Path, null, "Its content is not what was published: its SHA-256 is another.");

    private static IEnumerable<(ManifestFile File, string Path)> Renamed(ManifestFile[] missing, string[] added, Dictionary<string, string> there)
    {
        List<string> free = [.. added];
        foreach (ManifestFile file in missing)
        {
            if (free.FirstOrDefault(path => there[path] == file.Sha256) is { } path)
            {
                free.Remove(path);
                yield return (file, path);
            }
        }
    }

    private static BundleFault Invalid(string message) => new(BundleFaultCode.ManifestInvalid, BundleManifest.Path, null, message);
}
