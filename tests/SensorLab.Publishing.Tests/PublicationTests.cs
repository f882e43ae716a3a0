using System.IO.Compression;
using System.Text;
using SensorLab.Profiles;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Verification;
using SensorLab.TestData;

namespace SensorLab.Publishing.Tests;

public sealed class PublicationTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Make_SameProfile_GivesTheSameBytes() =>
        Assert.Equal(SampleBundles.Unsigned.Bytes, Publication.Make(SampleProfiles.Monochrome(), SampleBundles.Accepting, TestContext.Current.CancellationToken).Bytes);

    [Fact]
    public void Make_Signed_DiffersInTheLastFileAlone()
    {
        IReadOnlyList<ArchiveFile> unsigned = SampleBundles.Contents(SampleBundles.Unsigned);
        IReadOnlyList<ArchiveFile> signed = SampleBundles.Contents(SampleBundles.Signed);

        Assert.Equal(BundleManifest.SignaturePath, signed[^1].Path);
        Assert.Equal(unsigned.Select(f => (f.Path, Convert.ToHexString(f.Bytes.Span))), signed.SkipLast(1).Select(f => (f.Path, Convert.ToHexString(f.Bytes.Span))));
        int content = signed.SkipLast(1).Sum(f => f.Bytes.Length);
        Assert.Equal(SampleBundles.Unsigned.Bytes[..content], SampleBundles.Signed.Bytes[..content]);
    }

    [Fact]
    public void Make_Bundle_OpensInAnyZipReaderAndHoldsWhatATeamNeeds()
    {
        using var zip = new ZipArchive(new MemoryStream(SampleBundles.Signed.Bytes.ToArray()));
        string[] paths = [.. zip.Entries.Select(e => e.FullName)];

        string[] needed =
        [
            "README.txt", "profile.json", "sensor-profile.schema.json", "dng-noise-profiles.csv", "dng-noise-profiles.json", "manifest.json", "manifest.json.jws",
            "pocket.html", "pocket.pdf", "report/report.html", "report/report.pdf", "report/charts/latitude-ruler.svg", "report/tables/latitude.csv", "report/tables/frames.csv",
        ];
        Assert.Empty(needed.Except(paths));
        using StreamReader profile = new(zip.GetEntry("profile.json")!.Open());
        using var expected = new MemoryStream();
        SensorProfileWriter.Write(SampleProfiles.Monochrome(), expected);
        Assert.Equal(Encoding.UTF8.GetString(expected.ToArray()), profile.ReadToEnd());
    }

    [Fact]
    public void Make_NoiseProfiles_AreTheProfilesPerIsoAndChannel()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        string csv = Encoding.UTF8.GetString(DngNoiseEntry.Csv(DngNoiseEntry.AllOf(profile)));
        string[] lines = csv.TrimEnd().Split('\n');

        Assert.Equal("iso,channel,scale,offset", lines[0]);
        Assert.Equal(12, lines.Length - 1);
        DngNoiseProfile green = profile.IsoProfiles[1].Channels[1].DngNoiseProfile!;
        string[] cells = lines[6].Split(',');
        Assert.Equal(["400", "G1"], cells[..2]);
        Assert.Equal((green.Scale, green.Offset), (double.Parse(cells[2], System.Globalization.CultureInfo.InvariantCulture), double.Parse(cells[3], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.EndsWith("100,R,,\n100,G1,,\n100,G2,,\n100,B,,\n", Encoding.UTF8.GetString(DngNoiseEntry.Csv(DngNoiseEntry.AllOf(SampleProfiles.Bounds()))), StringComparison.Ordinal);
    }

    [Fact]
    public void WriteFile_FindingsNotAccepted_ListsThemAndWritesNothing()
    {
        FindingsNotAcceptedException refused = Assert.Throws<FindingsNotAcceptedException>(
            () => Publication.WriteFile(SampleProfiles.ThreeIsos(), _folder.File("b.zip"), new PublishingOptions(), TestContext.Current.CancellationToken));

        Assert.Equal([FindingCode.MeteredMissing, FindingCode.LightDrift], refused.Findings.Select(f => f.Code));
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Fact]
    public void Make_FindingsAccepted_StayInTheBundle()
    {
        Assert.Equal([FindingCode.LightDrift, FindingCode.MeteredMissing], SampleBundles.Unsigned.Manifest.AcceptedFindings);
        BundleVerification result = BundleVerifier.Verify(SampleBundles.Unsigned.Bytes);
        Assert.Contains(result.Profile!.Findings, f => f.Code == FindingCode.LightDrift);
        Assert.Contains("light-drift", TextOf(SampleBundles.Unsigned, "README.txt"), StringComparison.Ordinal);
    }

    [Fact]
    public void Make_NotesAlone_NeedNoAcceptance() =>
        Assert.Empty(Publication.Make(SampleBundles.Clean(), new PublishingOptions(), TestContext.Current.CancellationToken).Manifest.AcceptedFindings);

    [Fact]
    public void Make_ProfileOfALaterMinorVersion_IsRefusedRatherThanCutShort() =>
        Assert.Contains("Update SensorLab", Assert.Throws<ProfileFormatException>(() => Publication.Make(SampleBundles.Clean() with { FormatVersion = "1.12" }, new PublishingOptions(), TestContext.Current.CancellationToken)).Remedy, StringComparison.Ordinal);

    [Fact]
    public void WriteFile_Cancelled_LeavesTheOldBundle()
    {
        File.WriteAllText(_folder.File("b.zip"), "old");
        using var source = new CancellationTokenSource();
        source.Cancel();

        Assert.ThrowsAny<OperationCanceledException>(() => Publication.WriteFile(SampleBundles.Clean(), _folder.File("b.zip"), new PublishingOptions(), source.Token));

        Assert.Equal("old", File.ReadAllText(_folder.File("b.zip")));
        Assert.Single(Directory.GetFileSystemEntries(_folder.Path));
    }

    [Fact]
    public void Make_HostileWords_AreABundleLikeAnyOther()
    {
        PublishedBundle plain = Publication.Make(SampleProfiles.HostileStrings(), SampleBundles.Accepting, TestContext.Current.CancellationToken);
        PublishedBundle anonymous = Publication.Make(SampleProfiles.HostileStrings(), SampleBundles.Accepting with { IsAnonymous = true }, TestContext.Current.CancellationToken);

        Assert.True(BundleVerifier.Verify(plain.Bytes).IsValid);
        Assert.True(BundleVerifier.Verify(anonymous.Bytes).IsValid);
    }

    internal static string TextOf(PublishedBundle bundle, string path) =>
        Encoding.UTF8.GetString(SampleBundles.Contents(bundle).Single(f => f.Path == path).Bytes.Span);
}
