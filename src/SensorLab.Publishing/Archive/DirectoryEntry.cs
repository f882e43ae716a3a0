namespace SensorLab.Publishing.Archive;

/// <summary>What an archive's directory says of one file; none of it is believed yet.</summary>
/// <param name="Path">The path.</param>
/// <param name="Flags">General-purpose flags.</param>
/// <param name="Method">Compression method; 0 is none.</param>
/// <param name="Checksum">CRC-32 of the content.</param>
/// <param name="CompressedBytes">Bytes in the archive.</param>
/// <param name="Bytes">Bytes unpacked.</param>
/// <param name="ExternalAttributes">The system's attributes.</param>
/// <param name="Offset">Where the file's own header begins.</param>
/// <param name="HasZip64">Whether a 64-bit extra field is there.</param>
internal sealed record DirectoryEntry(
    string Path, ushort Flags, ushort Method, uint Checksum, uint CompressedBytes, uint Bytes, uint ExternalAttributes, uint Offset, bool HasZip64)
{
    private const int LinkType = 0xA000;
    private const int TypeMask = 0xF000;

    /// <summary>Whether the content is encrypted.</summary>
    public bool IsEncrypted => (Flags & 1) != 0;

    /// <summary>Whether it is a symbolic link.</summary>
    public bool IsLink => ((ExternalAttributes >> 16) & TypeMask) == LinkType;

    /// <summary>Whether its sizes lie in 64-bit fields.</summary>
    public bool IsZip64 => HasZip64 || Bytes == uint.MaxValue || CompressedBytes == uint.MaxValue || Offset == uint.MaxValue;
}
