using System.Buffers.Binary;
using System.IO.Compression;
using System.Globalization;
using System.IO.Hashing;
using SensorLab.Publishing.Verification;

namespace SensorLab.Publishing.Archive;

/// <summary>An archive's files, taken out without unpacking.</summary>
internal sealed record ArchiveContents(IReadOnlyList<ArchiveFile> Files, IReadOnlyList<BundleFault> Faults)
{
    /// <summary>Takes the files out.</summary>
    /// <param name="archive">The whole archive.</param>
    /// <param name="directory">Its directory, in which no trick was found.</param>
    public static ArchiveContents Of(ReadOnlyMemory<byte> archive, ArchiveDirectory directory)
    {
        List<ArchiveFile> files = [];
        List<BundleFault> faults = [];
        foreach (DirectoryEntry entry in directory.Entries)
        {
            if (ContentOf(archive[..directory.Start], entry) is not { } content)
            {
                // One byte more or less moves every later file: the first tells enough.
                faults.Add(new BundleFault(BundleFaultCode.Damaged, entry.Path, entry.Offset, "The file is not where the directory says: bytes before it were added, taken away or changed."));
                break;
            }

            if (entry.Method == ZipFormat.Deflated)
            {
                if (Inflated(content, entry.Bytes) is not { } unpacked)
                {
                    faults.Add(new BundleFault(BundleFaultCode.Changed, entry.Path, entry.Offset, "It does not unpack to what the directory says."));
                    continue;
                }

                content = unpacked;
            }

            files.Add(new ArchiveFile(entry.Path, content));
            if (Crc32.HashToUInt32(content.Span) != entry.Checksum)
            {
                faults.Add(new BundleFault(BundleFaultCode.Changed, entry.Path, entry.Offset, string.Create(CultureInfo.InvariantCulture, $"The content does not fit the checksum in the directory ({content.Length} bytes from {entry.Offset} on).")));
            }
        }

        return new ArchiveContents(files, faults);
    }

    // No more is unpacked than was declared, and all declared is below the limit of a bundle.
    private static ReadOnlyMemory<byte>? Inflated(ReadOnlyMemory<byte> packed, uint bytes)
    {
        byte[] content = new byte[bytes + 1];
        try
        {
            using var stream = new DeflateStream(new MemoryStream(packed.ToArray()), CompressionMode.Decompress);
            int unpacked = stream.ReadAtLeast(content, content.Length, throwOnEndOfStream: false);
            return unpacked == bytes ? new ReadOnlyMemory<byte>(content, 0, unpacked) : (ReadOnlyMemory<byte>?)null;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    private static ReadOnlyMemory<byte>? ContentOf(ReadOnlyMemory<byte> files, DirectoryEntry entry)
    {
        long start = (long)entry.Offset + ZipFormat.LocalBytes;
        if (start > files.Length)
        {
            return null;
        }

        ReadOnlySpan<byte> header = files.Span[(int)entry.Offset..];
        if (BinaryPrimitives.ReadUInt32LittleEndian(header) != ZipFormat.LocalSignature)
        {
            return null;
        }

        start += BinaryPrimitives.ReadUInt16LittleEndian(header[26..]) + BinaryPrimitives.ReadUInt16LittleEndian(header[28..]);
        return start + entry.CompressedBytes > files.Length ? null : files.Slice((int)start, (int)entry.CompressedBytes);
    }
}
