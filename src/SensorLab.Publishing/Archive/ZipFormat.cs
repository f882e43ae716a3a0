namespace SensorLab.Publishing.Archive;

/// <summary>The numbers of the zip format that bundles use, from its public specification (references: ZIP), section 4.3.</summary>
internal static class ZipFormat
{
    /// <summary>Begins a file's own header.</summary>
    public const uint LocalSignature = 0x04034b50;

    /// <summary>Begins a file's entry in the directory.</summary>
    public const uint DirectorySignature = 0x02014b50;

    /// <summary>Begins the end of the directory.</summary>
    public const uint EndSignature = 0x06054b50;

    /// <summary>Begins the locator of a 64-bit directory, right before the end.</summary>
    public const uint Zip64LocatorSignature = 0x07064b50;

    /// <summary>Bytes of a file's own header before its name.</summary>
    public const int LocalBytes = 30;

    /// <summary>Bytes of a directory entry before its name.</summary>
    public const int DirectoryBytes = 46;

    /// <summary>Bytes of the end of the directory without a comment.</summary>
    public const int EndBytes = 22;

    /// <summary>Bytes of the locator of a 64-bit directory.</summary>
    public const int Zip64LocatorBytes = 20;

    /// <summary>Version 1.0, both written by and needed: files as they are.</summary>
    public const ushort Version = 10;

    /// <summary>1 January 1980, the first day that the format knows; the time of day is 0.</summary>
    public const ushort FirstDay = (1 << 5) | 1;

    /// <summary>The method of a file that is held as it is.</summary>
    public const ushort Stored = 0;

    /// <summary>The method of a file that was packed anew by any common tool (RFC 1951).</summary>
    public const ushort Deflated = 8;

    /// <summary>The most files of a bundle: thirty ISOs have some 700.</summary>
    public const int FileLimit = 4096;

    /// <summary>The largest bundle, in bytes: several times what thirty ISOs take.</summary>
    public const int SizeLimitBytes = 256 * 1024 * 1024;
}
