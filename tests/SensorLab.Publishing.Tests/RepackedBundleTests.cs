using System.IO.Compression;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Verification;

namespace SensorLab.Publishing.Tests;

/// <summary>Bundles that mail, a cloud or a helpful person packed anew or unpacked: judged by their contents.</summary>
public sealed class RepackedBundleTests
{
    private static IReadOnlyList<ArchiveFile> Files => SampleBundles.Contents(SampleBundles.Small(isSigned: true));

    [Fact]
    public void Verify_PackedAnew_IsWholeWithANote()
    {
        BundleVerification result = BundleVerifier.Verify(Repacked(Files));

        Assert.True(result.IsValid);
        Assert.NotNull(result.Signer);
        Assert.Equal(BundleFaultCode.Compressed, Assert.Single(result.Notes).Code);
    }

    [Fact]
    public void Verify_PackedAnewAndAltered_NamesWhatWasAlteredAddedAndTakenAwayAlone()
    {
        ArchiveFile[] files = [.. Files];
        int altered = Array.FindIndex(files, file => file.Path == "profile.json");
        string missing = files.First(file => file.Path is not (BundleManifest.Path or BundleManifest.SignaturePath or "profile.json")).Path;
        files[altered] = new ArchiveFile(files[altered].Path, new byte[] { 1, 2, 3 });

        BundleVerification result = BundleVerifier.Verify(Repacked([.. files.Where(file => file.Path != missing), new ArchiveFile("more.txt", "x"u8.ToArray())]));

        Assert.Equal(
            [(BundleFaultCode.Changed, files[altered].Path), (BundleFaultCode.Missing, missing), (BundleFaultCode.Added, "more.txt")],
            result.Faults.Select(fault => (fault.Code, fault.File!)));
    }

    [Fact]
    public void VerifyFile_Unpacked_IsComparedFileByFile()
    {
        string folder = System.IO.Directory.CreateTempSubdirectory("sensorlab-").FullName;
        foreach (ArchiveFile file in Files)
        {
            string path = Path.Combine(folder, file.Path);
            System.IO.Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, file.Bytes.ToArray());
        }

        BundleVerification whole = BundleVerifier.VerifyFile(folder, cancellation: TestContext.Current.CancellationToken);
        File.AppendAllText(Path.Combine(folder, "profile.json"), " ");
        BundleVerification altered = BundleVerifier.VerifyFile(folder, cancellation: TestContext.Current.CancellationToken);
        System.IO.Directory.Delete(folder, recursive: true);

        Assert.True(whole.IsValid);
        Assert.Equal(BundleFaultCode.Unpacked, Assert.Single(whole.Notes).Code);
        Assert.Equal([(BundleFaultCode.Changed, "profile.json")], altered.Faults.Select(fault => (fault.Code, fault.File!)));
    }

    private static byte[] Repacked(IEnumerable<ArchiveFile> files)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (ArchiveFile file in files)
            {
                using Stream entry = zip.CreateEntry(file.Path, CompressionLevel.SmallestSize).Open();
                entry.Write(file.Bytes.Span);
            }
        }

        return stream.ToArray();
    }
}
