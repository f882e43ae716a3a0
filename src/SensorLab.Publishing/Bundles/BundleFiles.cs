using SensorLab.Profiles;
using SensorLab.Publishing.Archive;
using SensorLab.Reports;

namespace SensorLab.Publishing.Bundles;

/// <summary>The files that a bundle is made of, all from the profile alone.</summary>
internal static class BundleFiles
{
    /// <summary>The profile's path in the bundle.</summary>
    public const string ProfilePath = "profile.json";

    /// <summary>Every file but the words about them, the manifest and the signature.</summary>
    /// <param name="profile">The profile as it is published.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static IEnumerable<ArchiveFile> Of(SensorProfile profile, CancellationToken cancellation)
    {
        yield return new ArchiveFile(ProfilePath, Bytes(stream => SensorProfileWriter.Write(profile, stream)));
        yield return new ArchiveFile("sensor-profile.schema.json", System.Text.Encoding.UTF8.GetBytes(SensorProfileSchema.Json));
        IReadOnlyList<DngNoiseEntry> noise = DngNoiseEntry.AllOf(profile);
        yield return new ArchiveFile("dng-noise-profiles.csv", DngNoiseEntry.Csv(noise));
        yield return new ArchiveFile("dng-noise-profiles.json", ManifestJson.BytesOf(DngNoiseDocument.Of(profile)));
        yield return new ArchiveFile("pocket.html", PocketWriter.Html([profile]));
        yield return new ArchiveFile("pocket.pdf", PocketWriter.Pdf([profile], cancellation));
        foreach (ReportFile file in ReportWriter.Files(profile, cancellation))
        {
            yield return new ArchiveFile($"report/{file.Name}", file.Bytes);
        }
    }

    private static byte[] Bytes(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return stream.ToArray();
    }
}
