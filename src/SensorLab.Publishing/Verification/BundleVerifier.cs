using System.Globalization;
using System.Security.Cryptography;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;

namespace SensorLab.Publishing.Verification;

/// <summary>Verifies bundles to the last byte. Nothing is unpacked or written, and nothing that the bundle says is believed.</summary>
/// <remarks>
/// The directory is searched for tricks first; then every file is compared with the manifest, and the signature with the
/// manifest's bytes; at last the archive is built anew from what was verified and compared with the file. Bytes of no file,
/// in headers, comments, between or behind, have therefore no place to hide.
/// </remarks>
public sealed class BundleVerifier
{
    private readonly List<BundleFault> _faults = [];

    private readonly List<BundleFault> _notes = [];
    private readonly PublicKey? _trusted;

    private BundleManifest? _manifest;
    private string? _manifestSha256;
    private SensorProfile? _profile;
    private bool _isSigned;
    private PublicKey? _signer;

    private BundleVerifier(PublicKey? trusted) => _trusted = trusted;

    /// <summary>Verifies a file, or the folder that one was unpacked into.</summary>
    /// <param name="path">The file or the folder.</param>
    /// <param name="trusted">The key that must have signed; null for any or none.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>What was found; a file that is no bundle is a finding, not an exception.</returns>
    /// <exception cref="IOException">The file is missing or cannot be read, or it is a folder without a manifest.</exception>
    /// <exception cref="UnauthorizedAccessException">The path may not be read.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static BundleVerification VerifyFile(string path, PublicKey? trusted = null, CancellationToken cancellation = default)
    {
        if (Directory.Exists(path))
        {
            if (!File.Exists(Path.Combine(path, BundleManifest.Path)))
            {
                throw new IOException($"{path} is a folder without {BundleManifest.Path}: no bundle was unpacked there.");
            }

            var verifier = new BundleVerifier(trusted);
            verifier.ExamineFolder(path, cancellation);
            return verifier.Result(null);
        }

        using FileStream file = PlainFile.OpenRead(path);
        using var memory = new MemoryStream();
        byte[] buffer = new byte[81920];
        int count;
        while ((count = file.Read(buffer)) > 0)
        {
            cancellation.ThrowIfCancellationRequested();
            memory.Write(buffer, 0, count);
            if (memory.Length > ZipFormat.SizeLimitBytes)
            {
                string message = string.Create(CultureInfo.InvariantCulture, $"The file is larger than {ZipFormat.SizeLimitBytes / (1024 * 1024)} MB, which no bundle is; it was not read further.");
                return new BundleVerification([new BundleFault(BundleFaultCode.TooLarge, null, null, message)], null, null, null, null, false, null, trusted is null ? null : false);
            }
        }

        return Verify(memory.GetBuffer().AsMemory(0, (int)memory.Length), trusted);
    }

    /// <summary>Verifies a bundle in memory.</summary>
    /// <param name="bundle">The whole bundle.</param>
    /// <param name="trusted">The key that must have signed; null for any or none.</param>
    /// <returns>What was found.</returns>
    public static BundleVerification Verify(ReadOnlyMemory<byte> bundle, PublicKey? trusted = null)
    {
        var verifier = new BundleVerifier(trusted);
        verifier.Examine(bundle);
        return verifier.Result(bundle.Length);
    }

    private void Examine(ReadOnlyMemory<byte> bundle)
    {
        ArchiveDirectory directory = ArchiveDirectory.Read(bundle.Span);
        _faults.AddRange(directory.Faults);
        BundleFault[] tricks = [.. ArchiveTricks.Find(directory.Entries, bundle.Length)];
        _faults.AddRange(tricks);
        if (tricks.Length > 0 || directory.Entries.Count == 0)
        {
            NoteEmpty(directory);
            return;
        }

        ArchiveContents contents = ArchiveContents.Of(bundle, directory);
        _faults.AddRange(contents.Faults);
        ExamineFiles(contents);
        ExamineTrust();
        int packed = directory.Entries.Count(entry => entry.Method != ZipFormat.Stored);
        if (packed > 0)
        {
            _notes.Add(new BundleFault(BundleFaultCode.Compressed, null, null, string.Create(
                CultureInfo.InvariantCulture,
                $"The archive was packed anew: {packed} of {directory.Entries.Count} files are compressed, and bundles hold them as they are. Every file was compared with the manifest.")));
        }
        else if (_faults.Count == 0)
        {
            ExamineStructure(bundle.Span, contents.Files);
        }
    }

    private void ExamineFolder(string folder, CancellationToken cancellation)
    {
        ArchiveContents contents = FolderContents.Of(folder, cancellation);
        _faults.AddRange(contents.Faults);
        ExamineFiles(contents);
        ExamineTrust();
        _notes.Add(new BundleFault(BundleFaultCode.Unpacked, null, null, "The bundle was unpacked into a folder. Every file was compared with the manifest."));
    }

    private void NoteEmpty(ArchiveDirectory directory)
    {
        if (_faults.Count == 0 && directory.Entries.Count == 0)
        {
            _faults.Add(new BundleFault(BundleFaultCode.ManifestMissing, null, null, "The archive is empty: it is no bundle of sensorlab publish."));
        }
    }

    private void ExamineFiles(ArchiveContents contents)
    {
        if (FileOf(contents, BundleManifest.Path) is not { } manifest)
        {
            if (contents.Faults.Count == 0)
            {
                _faults.Add(new BundleFault(BundleFaultCode.ManifestMissing, BundleManifest.Path, null, "There is no manifest: the archive is no bundle of sensorlab publish, or its manifest was taken away."));
            }

            return;
        }

        _manifestSha256 = Convert.ToHexStringLower(SHA256.HashData(manifest.Span));
        ExamineSignature(contents, manifest.Span);
        (_manifest, BundleFault? fault) = ManifestCheck.Read(manifest);
        if (_manifest is null)
        {
            _faults.Add(fault!);
            return;
        }

        ArchiveFile[] published = [.. contents.Files.Where(file => file.Path is not (BundleManifest.Path or BundleManifest.SignaturePath))];
        BundleFault[] unlike = [.. ManifestCheck.Compare(published, _manifest.Files)];

        // Where the content fits no checksum either, it was named already; where files could not be reached, they are not "missing".
        HashSet<string?> named = [.. contents.Faults.Select(f => f.File)];
        bool isCutShort = contents.Faults.Any(f => f.Code == BundleFaultCode.Damaged);
        _faults.AddRange(unlike.Where(f => !named.Contains(f.File) && !(isCutShort && f.Code == BundleFaultCode.Missing)));
        if (unlike.Length == 0 && named.Count == 0)
        {
            ExamineProfile(contents);
        }
    }

    private void ExamineSignature(ArchiveContents contents, ReadOnlySpan<byte> manifest)
    {
        if (FileOf(contents, BundleManifest.SignaturePath) is not { } signature)
        {
            return;
        }

        _isSigned = true;
        (PublicKey? key, string? reason) = DetachedSignature.Check(signature.Span, manifest);
        if (reason is null)
        {
            _signer = key;
        }
        else
        {
            _faults.Add(new BundleFault(BundleFaultCode.SignatureInvalid, BundleManifest.SignaturePath, null, reason));
        }
    }

    private void ExamineProfile(ArchiveContents contents)
    {
        try
        {
            using var stream = new MemoryStream((FileOf(contents, BundleFiles.ProfilePath) ?? default).ToArray());
            _profile = SensorProfileReader.Read(stream);
        }
        catch (ProfileFormatException e)
        {
            _faults.Add(new BundleFault(BundleFaultCode.ProfileInvalid, BundleFiles.ProfilePath, null, $"{e.Message} {e.Remedy}"));
        }
    }

    private void ExamineTrust()
    {
        if (_trusted is null)
        {
            return;
        }

        if (!_isSigned)
        {
            _faults.Add(new BundleFault(BundleFaultCode.SignatureMissing, null, null, $"The bundle is not signed, and the key {_trusted.Thumbprint} should have signed it."));
        }
        else if (_signer is not null && _signer != _trusted)
        {
            _faults.Add(new BundleFault(BundleFaultCode.SignatureUntrusted, BundleManifest.SignaturePath, null, $"The key {_signer.Thumbprint} signed it, not the trusted one, {_trusted.Thumbprint}."));
        }
    }

    private void ExamineStructure(ReadOnlySpan<byte> bundle, IReadOnlyList<ArchiveFile> files)
    {
        ArchiveFile[] inOrder = [.. files.OrderBy(Rank).ThenBy(file => file.Path, StringComparer.Ordinal)];
        if (CanonicalArchive.Of(inOrder).FirstDifference(bundle) is not { } difference)
        {
            return;
        }

        string place = difference.Place.Path is { } path ? $"the {difference.Place.What} of {path}" : $"the {difference.Place.What}";
        _faults.Add(new BundleFault(
            BundleFaultCode.Structure,
            difference.Place.Path,
            difference.Offset,
            string.Create(CultureInfo.InvariantCulture, $"The files are as published, but the archive around them is not: it differs from byte {difference.Offset} on, in {place}.")));
    }

    private static int Rank(ArchiveFile file) => file.Path switch
    {
        BundleManifest.Path => 1,
        BundleManifest.SignaturePath => 2,
        _ => 0,
    };

    private static ReadOnlyMemory<byte>? FileOf(ArchiveContents contents, string path)
    {
        foreach (ArchiveFile file in contents.Files)
        {
            if (file.Path == path)
            {
                return file.Bytes;
            }
        }

        return null;
    }

    private BundleVerification Result(long? sizeBytes) => new(
        _faults,
        sizeBytes,
        _manifest,
        _manifestSha256,
        _profile,
        _isSigned,
        _signer,
        _trusted is null ? null : _signer == _trusted) { Notes = _notes };
}
