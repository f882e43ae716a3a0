using System.Buffers.Binary;
using System.IO.Compression;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Verification;
using SensorLab.TestData;

namespace SensorLab.Publishing.Tests;

/// <summary>Archives made to harm whoever unpacks them are refused by name, and nothing is unpacked to find out.</summary>
public sealed class ZipTrickTests
{
    private const int FlagsInDirectory = 8;
    private const int SizeInDirectory = 24;
    private const int AttributesInDirectory = 38;

    [Theory]
    [InlineData("../outside.txt", "climbs")]
    [InlineData("report/../../outside.txt", "climbs")]
    [InlineData("report\\..\\outside.txt", "climbs")]
    [InlineData("/etc/motd", "absolute")]
    [InlineData("C:/motd", "absolute")]
    [InlineData("\\\\server\\motd", "absolute")]
    [InlineData("report\\page.html", "backslashes")]
    [InlineData("report/./page.html", "differently")]
    [InlineData("report//page.html", "differently")]
    [InlineData("page.", "differently")]
    [InlineData("report/", "folder")]
    [InlineData("page\u202egnp.html", "characters")]
    [InlineData("page\u001b[2J.html", "characters")]
    [InlineData("page:stream", "characters")]
    public void Verify_UnsafePath_IsRefused(string path, string reason) =>
        AssertRefused(Zip((path, "x")), BundleFaultCode.Path, reason);

    [Theory]
    [InlineData("profile.json", "profile.json")]
    [InlineData("profile.json", "PROFILE.json")]
    public void Verify_DuplicateName_IsRefused(string first, string second) =>
        AssertRefused(Zip((first, "x"), (second, "y")), BundleFaultCode.DuplicateName, "2 files");

    [Fact]
    public void Verify_BombThatSaysSo_IsRefusedWithoutUnpacking()
    {
        byte[] bomb = Bomb();
        BinaryPrimitives.WriteUInt32LittleEndian(Directory(bomb)[SizeInDirectory..], 300_000_000);

        AssertRefused(bomb, BundleFaultCode.TooLarge, "none was unpacked");
    }

    [Fact]
    public void Verify_BombThatLies_IsUnpackedNoFurtherThanItSays()
    {
        byte[] bomb = Bomb();
        BinaryPrimitives.WriteUInt32LittleEndian(Directory(bomb)[SizeInDirectory..], 1000);
        long before = GC.GetAllocatedBytesForCurrentThread();

        AssertRefused(bomb, BundleFaultCode.Changed, "does not unpack");

        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 4_000_000);
    }

    private static byte[] Bomb()
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            using Stream entry = zip.CreateEntry("profile.json", CompressionLevel.SmallestSize).Open();
            entry.Write(new byte[64 * 1024 * 1024]);
        }

        return stream.ToArray();
    }

    [Fact]
    public void Verify_SizesThatLie_AreRefused()
    {
        byte[] zip = Zip(("profile.json", "x"), ("manifest.json", "y"));
        BinaryPrimitives.WriteUInt32LittleEndian(Directory(zip)[(SizeInDirectory - 4)..], 100_000);
        BinaryPrimitives.WriteUInt32LittleEndian(Directory(zip)[SizeInDirectory..], 100_000);

        AssertRefused(zip, BundleFaultCode.Overlap, "overlap");
    }

    [Fact]
    public void Verify_Link_IsRefused()
    {
        byte[] zip = Zip(("profile.json", "/etc/passwd"));
        BinaryPrimitives.WriteUInt32LittleEndian(Directory(zip)[AttributesInDirectory..], 0xA1FF0000);

        AssertRefused(zip, BundleFaultCode.Link, "link");
    }

    [Fact]
    public void Verify_Encrypted_IsRefused()
    {
        byte[] zip = Zip(("profile.json", "x"));
        Directory(zip)[FlagsInDirectory] |= 1;

        AssertRefused(zip, BundleFaultCode.Encrypted, "encrypted");
    }

    [Fact]
    public void Verify_WideSizes_AreRefused()
    {
        byte[] zip = Zip(("profile.json", "x"));
        BinaryPrimitives.WriteUInt32LittleEndian(Directory(zip)[SizeInDirectory..], uint.MaxValue);

        AssertRefused(zip, BundleFaultCode.Zip64, "64-bit");
    }

    [Theory]
    [InlineData(10)]
    [InlineData(12)]
    [InlineData(16)]
    public void Verify_WideDirectory_IsRefused(int field)
    {
        byte[] zip = Zip(("profile.json", "x"));
        End(zip).Slice(field, field == 10 ? 2 : 4).Fill(0xFF);

        AssertRefused(zip, BundleFaultCode.Zip64, "64-bit");
    }

    [Fact]
    public void Verify_MoreFilesThanAnyBundle_AreRefused()
    {
        byte[] zip = Zip(("profile.json", "x"));
        BinaryPrimitives.WriteUInt16LittleEndian(End(zip)[10..], 60_000);

        AssertRefused(zip, BundleFaultCode.TooMany, "60000");
    }

    [Fact]
    public void Verify_Comment_IsNamed()
    {
        using var stream = new MemoryStream();
        stream.Write(SampleBundles.Small(isSigned: false));
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Update, leaveOpen: true))
        {
            zip.Comment = "hello";
        }

        Assert.Contains(BundleVerifier.Verify(stream.ToArray()).Faults, f => f.Code == BundleFaultCode.Structure);
    }

    [Theory]
    [InlineData("", BundleFaultCode.NoZip)]
    [InlineData("PK", BundleFaultCode.NoZip)]
    [InlineData("{\"format\": \"sensorlab-profile\"}", BundleFaultCode.NoZip)]
    [InlineData("PK\u0003\u0004 and then nothing", BundleFaultCode.Damaged)]
    public void Verify_NoArchive_IsNamed(string text, string code) =>
        Assert.Equal(code, Assert.Single(BundleVerifier.Verify(System.Text.Encoding.Latin1.GetBytes(text)).Faults).Code);

    [Fact]
    public void Verify_EmptyArchive_HasNoManifest() =>
        Assert.Equal(BundleFaultCode.ManifestMissing, Assert.Single(BundleVerifier.Verify(Zip()).Faults).Code);

    [Fact]
    public void Verify_SomebodyElsesArchive_HasNoManifest() =>
        Assert.Equal(BundleFaultCode.ManifestMissing, Assert.Single(BundleVerifier.Verify(Zip(("a.txt", "x"))).Faults).Code);

    [Theory]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("{\"format\": ")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[[[[[")]
    public void Verify_ManifestThatIsNone_IsNamed(string text)
    {
        byte[] bundle = CanonicalArchive.Of([new ArchiveFile("manifest.json", System.Text.Encoding.UTF8.GetBytes(text))]).Bytes;

        Assert.Equal(BundleFaultCode.ManifestInvalid, Assert.Single(BundleVerifier.Verify(bundle).Faults).Code);
    }

    [Theory]
    [InlineData("2.0", "update SensorLab")]
    [InlineData("1", "formatVersion is another")]
    public void Verify_ManifestOfAnotherVersion_IsNamed(string version, string reason)
    {
        byte[] bundle = SampleBundles.With([.. SampleBundles.Contents(SampleBundles.Small(isSigned: false)).SkipLast(1)], change: m => m with { FormatVersion = version });

        BundleFault fault = Assert.Single(BundleVerifier.Verify(bundle).Faults);
        Assert.Equal(BundleFaultCode.ManifestInvalid, fault.Code);
        Assert.Contains(reason, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_LaterMinorVersion_IsReadWithItsNewProperties()
    {
        byte[] bundle = SampleBundles.With([.. SampleBundles.Contents(SampleBundles.Small(isSigned: false)).SkipLast(1)], change: m => m with { FormatVersion = "1.7" });

        Assert.True(BundleVerifier.Verify(bundle).IsValid);
    }

    [Fact]
    public void Verify_BundleWithoutAProfile_IsNotValid()
    {
        byte[] bundle = SampleBundles.With([new ArchiveFile("README.txt", "hello"u8.ToArray())]);

        Assert.Contains(BundleVerifier.Verify(bundle).Faults, f => f.Code == BundleFaultCode.ProfileInvalid);
    }

    [Fact]
    public void VerifyFile_LargerThanAnyBundle_IsNotReadToItsEnd()
    {
        using TemporaryFolder folder = new();
        using (FileStream file = File.Create(folder.File("b.zip")))
        {
            file.SetLength(4L * 1024 * 1024 * 1024);
        }

        Assert.Equal(BundleFaultCode.TooLarge, Assert.Single(BundleVerifier.VerifyFile(folder.File("b.zip"), cancellation: TestContext.Current.CancellationToken).Faults).Code);
    }

    private static void AssertRefused(byte[] zip, string code, string reason)
    {
        BundleVerification result = BundleVerifier.Verify(zip);

        Assert.False(result.IsWhole);
        Assert.Contains(result.Faults, f => f.Code == code && f.Message.Contains(reason, StringComparison.Ordinal));
    }

    private static byte[] Zip(params (string Path, string Text)[] files)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach ((string path, string text) in files)
            {
                using var writer = new StreamWriter(zip.CreateEntry(path, CompressionLevel.NoCompression).Open());
                writer.Write(text);
            }
        }

        return stream.ToArray();
    }

    private static Span<byte> Directory(byte[] zip) => zip.AsSpan(zip.AsSpan().IndexOf("PK\u0001\u0002"u8));

    private static Span<byte> End(byte[] zip) => zip.AsSpan(zip.AsSpan().LastIndexOf("PK\u0005\u0006"u8));
}
