using System.IO.Hashing;
using System.Text;

namespace SensorLab.Publishing.Archive;

/// <summary>The one way in which given files become a zip: files as they are, no times, no attributes, nothing between.</summary>
/// <remarks>
/// Stored, not compressed: the bytes then hang on no compressor's version, a file has one encoding alone, and nothing
/// unpacks to more than it is. Whoever has the files has the archive: that is how a bundle is verified to the last byte.
/// </remarks>
internal sealed class CanonicalArchive
{
    private readonly List<ArchivePlace> _places;

    private CanonicalArchive(byte[] bytes, List<ArchivePlace> places)
    {
        Bytes = bytes;
        _places = places;
    }

    /// <summary>The archive.</summary>
    public byte[] Bytes { get; }

    /// <summary>Builds the archive.</summary>
    /// <param name="files">The files, in their order; their paths are ASCII.</param>
    public static CanonicalArchive Of(IReadOnlyList<ArchiveFile> files)
    {
        using var stream = new MemoryStream();
        using var writer = new BinaryWriter(stream, Encoding.ASCII);
        List<ArchivePlace> places = [];
        List<uint> offsets = [];
        uint[] checksums = [.. files.Select(file => Crc32.HashToUInt32(file.Bytes.Span))];
        foreach ((int i, ArchiveFile file) in files.Index())
        {
            offsets.Add((uint)stream.Position);
            places.Add(new ArchivePlace(stream.Position, file.Path, "header"));
            WriteLocalHeader(writer, file, checksums[i]);
            places.Add(new ArchivePlace(stream.Position, file.Path, "content"));
            writer.Write(file.Bytes.Span);
        }

        long start = stream.Position;
        foreach ((int i, ArchiveFile file) in files.Index())
        {
            places.Add(new ArchivePlace(stream.Position, file.Path, "entry in the directory"));
            WriteDirectoryEntry(writer, file, checksums[i], offsets[i]);
        }

        places.Add(new ArchivePlace(stream.Position, null, "end of the directory"));
        WriteEnd(writer, files.Count, start, stream.Position - start);
        return new CanonicalArchive(stream.ToArray(), places);
    }

    /// <summary>The first place where other bytes differ from this archive's; null where they are the same.</summary>
    /// <param name="others">The other bytes.</param>
    /// <returns>The differing byte's offset, and the place in this archive that it falls into.</returns>
    public (long Offset, ArchivePlace Place)? FirstDifference(ReadOnlySpan<byte> others)
    {
        int offset = others.CommonPrefixLength(Bytes);
        return offset == Bytes.Length && offset == others.Length ? null
            : offset == Bytes.Length ? (offset, new ArchivePlace(offset, null, "bytes after the end"))
            : (offset, PlaceOf(offset));
    }

    /// <summary>What a byte is a part of.</summary>
    /// <param name="offset">The byte's offset.</param>
    public ArchivePlace PlaceOf(long offset) => _places.Last(place => place.Offset <= offset);

    private static void WriteLocalHeader(BinaryWriter writer, ArchiveFile file, uint checksum)
    {
        writer.Write(ZipFormat.LocalSignature);
        WriteCommon(writer, file, checksum);
        writer.Write(Encoding.ASCII.GetBytes(file.Path));
    }

    private static void WriteDirectoryEntry(BinaryWriter writer, ArchiveFile file, uint checksum, uint offset)
    {
        writer.Write(ZipFormat.DirectorySignature);
        writer.Write(ZipFormat.Version);
        WriteCommon(writer, file, checksum);
        // Comment's length, disk, internal attributes; then external attributes.
        writer.Write((ushort)0);
        writer.Write((ushort)0);
        writer.Write((ushort)0);
        writer.Write(0u);
        writer.Write(offset);
        writer.Write(Encoding.ASCII.GetBytes(file.Path));
    }

    private static void WriteCommon(BinaryWriter writer, ArchiveFile file, uint checksum)
    {
        writer.Write(ZipFormat.Version);
        // Flags, method and time of day: none.
        writer.Write((ushort)0);
        writer.Write((ushort)0);
        writer.Write((ushort)0);
        writer.Write(ZipFormat.FirstDay);
        writer.Write(checksum);
        writer.Write((uint)file.Bytes.Length);
        writer.Write((uint)file.Bytes.Length);
        writer.Write((ushort)file.Path.Length);
        // Extra fields' length.
        writer.Write((ushort)0);
    }

    private static void WriteEnd(BinaryWriter writer, int count, long start, long size)
    {
        writer.Write(ZipFormat.EndSignature);
        writer.Write((ushort)0);
        writer.Write((ushort)0);
        writer.Write((ushort)count);
        writer.Write((ushort)count);
        writer.Write((uint)size);
        writer.Write((uint)start);
        writer.Write((ushort)0);
    }
}
