using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Verification;

namespace SensorLab.Publishing.Tests;

/// <summary>No byte of a bundle can change, come or go unseen.</summary>
public sealed class TamperingTests
{
    private const int Places = 1000;

    private const int Seed = 20260418;

    private enum Change
    {
        Flip,
        Insert,
        Delete,
    }

    [Fact]
    public void Verify_ManifestBeyondItsSchema_NamesThePlace()
    {
        ArchiveFile file = new("a.txt", "a"u8.ToArray());
        ManifestFile entry = SampleBundles.Entry(file);
        (string Place, Func<BundleManifest, BundleManifest> Change)[] unsound =
        [
            ("files[0].sizeBytes", m => m with { Files = [entry with { SizeBytes = -1 }] }),
            ("files[0].sha256", m => m with { Files = [entry with { Sha256 = entry.Sha256.ToUpperInvariant() }] }),
            ("files[0].path", m => m with { Files = [entry with { Path = new string('a', 201) }] }),
            ("files", m => m with { Files = [.. Enumerable.Repeat(entry, 4097)] }),
            ("leftOut", m => m with { LeftOut = [.. Enumerable.Repeat("a", 101)] }),
            ("software.name", m => m with { Software = m.Software with { Name = new string('a', 2001) } }),
        ];

        Assert.DoesNotContain(BundleVerifier.Verify(SampleBundles.With([file])).Faults, f => f.Code == BundleFaultCode.ManifestInvalid);
        Assert.All(unsound, u =>
        {
            BundleFault fault = Assert.Single(BundleVerifier.Verify(SampleBundles.With([file], change: u.Change)).Faults, f => f.Code == BundleFaultCode.ManifestInvalid);
            Assert.Contains($"{u.Place} ", fault.Message, StringComparison.Ordinal);
        });
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Verify_WholeBundleChangedAtAThousandPlaces_AlwaysFindsIt(bool isSigned)
    {
        byte[] bundle = (isSigned ? SampleBundles.Signed : SampleBundles.Unsigned).Bytes.ToArray();
        var random = new Random(Seed);

        Assert.All(Enumerable.Range(0, Places), i => AssertFound(bundle, random.Next(bundle.Length), (Change)(i % 3), random));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Verify_SmallBundleChangedInEachWayAtAThousandPlaces_AlwaysFindsIt(bool isSigned)
    {
        byte[] bundle = SampleBundles.Small(isSigned);
        Assert.True(BundleVerifier.Verify(bundle).IsValid);
        var random = new Random(Seed);

        Assert.All(
            Enumerable.Range(0, Places),
            _ => Assert.All(Enum.GetValues<Change>(), change => AssertFound(bundle, random.Next(bundle.Length), change, random)));
    }

    [Fact]
    public void Verify_EveryByteThatIsNoFilesContent_IsHeldInEveryWay()
    {
        byte[] bundle = SampleBundles.Small(isSigned: true);
        var random = new Random(Seed);
        IReadOnlyList<ArchiveFile> files = SampleBundles.Contents(bundle);
        CanonicalArchive canonical = CanonicalArchive.Of(files);
        Assert.Equal(canonical.Bytes, bundle);
        int tried = 0;

        // Headers, directory and end; the signature, too.
        foreach (int at in Enumerable.Range(0, bundle.Length))
        {
            ArchivePlace place = canonical.PlaceOf(at);
            if (place.What != "content" || place.Path == BundleManifest.SignaturePath)
            {
                Assert.All(Enum.GetValues<Change>(), change => AssertFound(bundle, at, change, random));
                tried++;
            }
        }

        Assert.InRange(tried, 900, bundle.Length);
    }

    [Theory]
    [InlineData("profile.json")]
    [InlineData("README.txt")]
    [InlineData("dng-noise-profiles.csv")]
    public void Verify_FileChanged_IsNamed(string path)
    {
        ArchiveFile[] files = [.. SampleBundles.Contents(SampleBundles.Signed).Select(f => f.Path == path ? f with { Bytes = new byte[] { 1, 2, 3 } } : f)];

        AssertFault(CanonicalArchive.Of(files).Bytes, BundleFaultCode.Changed, path);
    }

    [Fact]
    public void Verify_FileMissing_IsNamed()
    {
        ArchiveFile[] files = [.. SampleBundles.Contents(SampleBundles.Signed).Where(f => f.Path != "report/report.pdf")];

        AssertFault(CanonicalArchive.Of(files).Bytes, BundleFaultCode.Missing, "report/report.pdf");
    }

    [Fact]
    public void Verify_FileAdded_IsNamed()
    {
        ArchiveFile[] files = [new ArchiveFile("more.txt", new byte[] { 1 }), .. SampleBundles.Contents(SampleBundles.Signed)];

        AssertFault(CanonicalArchive.Of(files).Bytes, BundleFaultCode.Added, "more.txt");
    }

    [Fact]
    public void Verify_FileRenamed_IsNamedWithItsOldName()
    {
        ArchiveFile[] files = [.. SampleBundles.Contents(SampleBundles.Signed).Select(f => f.Path == "report/report.pdf" ? f with { Path = "report/summary.pdf" } : f)];

        BundleFault fault = AssertFault(CanonicalArchive.Of(files).Bytes, BundleFaultCode.Renamed, "report/summary.pdf");

        Assert.Contains("report/report.pdf", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_FilesInAnotherOrder_IsNamed()
    {
        IReadOnlyList<ArchiveFile> files = SampleBundles.Contents(SampleBundles.Unsigned);
        byte[] bundle = CanonicalArchive.Of([files[1], files[0], .. files.Skip(2)]).Bytes;

        Assert.Contains(BundleVerifier.Verify(bundle).Faults, f => f.Code == BundleFaultCode.Structure);
    }

    [Fact]
    public void Verify_ManifestAndFilesExchangedTogether_IsFoundByTheSignatureAlone()
    {
        ArchiveFile[] files = [.. SampleBundles.Contents(SampleBundles.Signed)];
        ArchiveFile[] content = [.. files.Where(f => f.Path is not (BundleManifest.Path or BundleManifest.SignaturePath))];
        content[0] = content[0] with { Bytes = "other words"u8.ToArray() };
        BundleManifest manifest = SampleBundles.Signed.Manifest with { Files = [.. content.Select(SampleBundles.Entry)] };
        byte[] unsigned = CanonicalArchive.Of([.. content, new ArchiveFile(BundleManifest.Path, ManifestJson.BytesOf(manifest))]).Bytes;
        byte[] signed = CanonicalArchive.Of([.. content, new ArchiveFile(BundleManifest.Path, ManifestJson.BytesOf(manifest)), files[^1]]).Bytes;

        // Without a signature, whole again: why the text says so.
        Assert.True(BundleVerifier.Verify(unsigned).IsValid);
        AssertFault(signed, BundleFaultCode.SignatureInvalid, BundleManifest.SignaturePath);
        AssertFault(unsigned, BundleFaultCode.SignatureMissing, null, isTrusting: true);
    }

    [Theory]
    [InlineData("before")]
    [InlineData("behind")]
    public void Verify_BytesAroundTheArchive_AreNamed(string where)
    {
        byte[] bundle = SampleBundles.Small(isSigned: true);
        byte[] padded = where == "before" ? [.. "#!/bin/sh\n"u8, .. bundle] : [.. bundle, .. "more"u8];

        BundleVerification result = BundleVerifier.Verify(padded);

        Assert.Contains(result.Faults, f => f.Code == BundleFaultCode.Structure && f.Message.Contains(where == "before" ? "10 bytes too many" : "there are 4 bytes", StringComparison.Ordinal));
    }

    [Fact]
    public void Verify_CutAnywhere_IsNeverValid()
    {
        byte[] bundle = SampleBundles.Small(isSigned: true);
        var random = new Random(Seed);

        Assert.All(Enumerable.Range(0, Places), _ => Assert.False(BundleVerifier.Verify(bundle.AsMemory(0, random.Next(bundle.Length))).IsWhole));
    }

    private static BundleFault AssertFault(byte[] bundle, string code, string? file, bool isTrusting = false)
    {
        BundleVerification result = BundleVerifier.Verify(bundle, isTrusting ? SampleBundles.Key.Public : null);

        BundleFault fault = Assert.Single(result.Faults);
        Assert.Equal((code, file), (fault.Code, fault.File));
        return fault;
    }

    private static void AssertFound(byte[] bundle, int at, Change change, Random random)
    {
        byte[] changed = change switch
        {
            Change.Flip => [.. bundle],
            Change.Insert => [.. bundle[..at], (byte)random.Next(256), .. bundle[at..]],
            _ => [.. bundle[..at], .. bundle[(at + 1)..]],
        };
        if (change == Change.Flip)
        {
            changed[at] ^= (byte)(1 << random.Next(8));
        }

        BundleVerification result = BundleVerifier.Verify(changed);

        Assert.False(result.IsWhole, $"{change} at {at} went unseen.");
        Assert.All(result.Faults, f => Assert.NotEmpty(f.Message));
    }
}
