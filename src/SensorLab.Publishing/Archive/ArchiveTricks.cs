using System.Globalization;
using SensorLab.Publishing.Verification;

namespace SensorLab.Publishing.Archive;

/// <summary>What an archive could do to whoever unpacks it, by its directory alone.</summary>
internal static class ArchiveTricks
{
    /// <summary>Every trick in the directory; nothing is unpacked to find them.</summary>
    /// <param name="entries">The directory's entries.</param>
    /// <param name="archiveBytes">The archive's size.</param>
    public static IEnumerable<BundleFault> Find(IReadOnlyList<DirectoryEntry> entries, long archiveBytes)
    {
        IEnumerable<BundleFault> own = entries.SelectMany(Of);
        IEnumerable<BundleFault> twice = entries
            .GroupBy(entry => entry.Path, StringComparer.OrdinalIgnoreCase)
            .Where(group => group.Count() > 1)
            .Select(group => new BundleFault(BundleFaultCode.DuplicateName, group.Key, group.Last().Offset, Text($"{group.Count()} files are called that where case does not count: which one is unpacked is chance.")));
        return [.. own, .. twice, .. Overlap(entries, archiveBytes)];
    }

    private static IEnumerable<BundleFault> Of(DirectoryEntry entry)
    {
        if (ArchivePath.Fault(entry.Path) is { } reason)
        {
            yield return Fault(BundleFaultCode.Path, $"The path {reason}.");
        }

        if (entry.IsLink)
        {
            yield return Fault(BundleFaultCode.Link, "It is a link, which would lead out of the bundle.");
        }

        if (entry.IsEncrypted)
        {
            yield return Fault(BundleFaultCode.Encrypted, "It is encrypted: what it holds cannot be checked.");
        }

        if (entry.IsZip64)
        {
            yield return Fault(BundleFaultCode.Zip64, "Its sizes are in 64-bit fields, which no bundle needs and readers read differently.");
        }
        else if (entry.Method is not (ZipFormat.Stored or ZipFormat.Deflated) || (entry.Method == ZipFormat.Stored ? entry.Bytes != entry.CompressedBytes : entry.CompressedBytes == 0))
        {
            yield return Fault(BundleFaultCode.Compressed, Text($"It is packed in a way that no common tool packs in (method {entry.Method}): what it holds cannot be checked."));
        }

        BundleFault Fault(string code, string message) => new(code, entry.Path, entry.Offset, message);
    }

    // Every byte that files declare to unpack to counts, before one of them is unpacked.
    private static IEnumerable<BundleFault> Overlap(IReadOnlyList<DirectoryEntry> entries, long archiveBytes)
    {
        long declared = entries.Sum(entry => (long)entry.CompressedBytes);
        long unpacked = entries.Sum(entry => (long)entry.Bytes);
        return unpacked > ZipFormat.SizeLimitBytes
            ? [new BundleFault(BundleFaultCode.TooLarge, null, null, Text($"The files declare to unpack to {unpacked} bytes, more than any bundle holds; none was unpacked."))]
            : declared <= archiveBytes ? []
            : [new BundleFault(BundleFaultCode.Overlap, null, null, Text($"The files declare {declared} bytes in an archive of {archiveBytes}: they overlap, or lie about their size."))];
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
