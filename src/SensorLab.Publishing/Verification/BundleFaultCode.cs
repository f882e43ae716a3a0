namespace SensorLab.Publishing.Verification;

/// <summary>What can be wrong with a bundle.</summary>
public static class BundleFaultCode
{
    /// <summary>No zip archive.</summary>
    public const string NoZip = "zip-none";

    /// <summary>An archive that was cut short or damaged.</summary>
    public const string Damaged = "zip-damaged";

    /// <summary>Bytes of the archive that belong to no file: headers, order, comments, what lies before, between or behind.</summary>
    public const string Structure = "zip-structure";

    /// <summary>Sizes in 64-bit fields.</summary>
    public const string Zip64 = "zip-wide";

    /// <summary>More bytes than any bundle has.</summary>
    public const string TooLarge = "zip-large";

    /// <summary>More files than any bundle has.</summary>
    public const string TooMany = "zip-many";

    /// <summary>Files that overlap, or lie about their size.</summary>
    public const string Overlap = "zip-overlap";

    /// <summary>A path that climbs, is absolute or reads differently on another system.</summary>
    public const string Path = "path-unsafe";

    /// <summary>Two files of one name, where case does not count.</summary>
    public const string DuplicateName = "path-duplicate";

    /// <summary>A symbolic link.</summary>
    public const string Link = "file-link";

    /// <summary>Encrypted content.</summary>
    public const string Encrypted = "file-encrypted";

    /// <summary>Compressed content: a note where the archive was packed anew, a fault where it cannot be unpacked.</summary>
    public const string Compressed = "file-compressed";

    /// <summary>A folder in place of the archive: a note.</summary>
    public const string Unpacked = "zip-unpacked";

    /// <summary>A file's content is not what was published.</summary>
    public const string Changed = "file-changed";

    /// <summary>A file that was published is not there.</summary>
    public const string Missing = "file-missing";

    /// <summary>A file that was not published.</summary>
    public const string Added = "file-added";

    /// <summary>A file under another name than it was published under.</summary>
    public const string Renamed = "file-renamed";

    /// <summary>No manifest: a zip archive, but no bundle.</summary>
    public const string ManifestMissing = "manifest-missing";

    /// <summary>A manifest that cannot be read, or of a version that this program does not know.</summary>
    public const string ManifestInvalid = "manifest-invalid";

    /// <summary>The profile in the bundle is none.</summary>
    public const string ProfileInvalid = "profile-invalid";

    /// <summary>A signature that does not belong to the manifest.</summary>
    public const string SignatureInvalid = "signature-invalid";

    /// <summary>A trusted key was named, and the bundle is not signed.</summary>
    public const string SignatureMissing = "signature-missing";

    /// <summary>A trusted key was named, and another one signed.</summary>
    public const string SignatureUntrusted = "signature-untrusted";
}
