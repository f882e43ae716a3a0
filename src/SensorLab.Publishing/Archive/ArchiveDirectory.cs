using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using SensorLab.Publishing.Verification;

namespace SensorLab.Publishing.Archive;

/// <summary>Reads an archive's directory, bounded and without believing it: what it finds amiss is named.</summary>
internal sealed class ArchiveDirectory
{
    private const ushort Zip64Field = 1;

    private readonly List<BundleFault> _faults = [];
    private readonly List<DirectoryEntry> _entries = [];

    private ArchiveDirectory()
    {
    }

    /// <summary>The entries, in their order, as far as they could be read.</summary>
    public IReadOnlyList<DirectoryEntry> Entries => _entries;

    /// <summary>What is amiss.</summary>
    public IReadOnlyList<BundleFault> Faults => _faults;

    /// <summary>Where the directory begins; nothing of a file can lie behind it.</summary>
    public int Start { get; private set; }

    /// <summary>Reads the directory.</summary>
    /// <param name="archive">The whole archive.</param>
    public static ArchiveDirectory Read(ReadOnlySpan<byte> archive)
    {
        var directory = new ArchiveDirectory();
        int end = archive.LastIndexOf("PK\u0005\u0006"u8);
        if (end < 0 || archive.Length - end < ZipFormat.EndBytes)
        {
            directory._faults.Add(NoZip(archive));
            return directory;
        }

        directory.ReadFrom(archive, end);
        return directory;
    }

    private void ReadFrom(ReadOnlySpan<byte> archive, int end)
    {
        ReadOnlySpan<byte> record = archive[end..];
        int count = Short(record, 10);
        uint size = Long(record, 12);
        uint start = Long(record, 16);
        bool hasLocator = end >= ZipFormat.Zip64LocatorBytes && Long(archive, end - ZipFormat.Zip64LocatorBytes) == ZipFormat.Zip64LocatorSignature;
        if (count == ushort.MaxValue || size == uint.MaxValue || start == uint.MaxValue || hasLocator)
        {
            _faults.Add(new BundleFault(BundleFaultCode.Zip64, null, end, "The archive has a 64-bit directory, which no bundle needs and readers read differently."));
            return;
        }

        if (count > ZipFormat.FileLimit)
        {
            _faults.Add(new BundleFault(BundleFaultCode.TooMany, null, end, Text($"The archive declares {count} files; no bundle has more than {ZipFormat.FileLimit}.")));
            return;
        }

        NoteEnd(archive.Length, end, (long)size + start);
        if (!TryLocate(archive, end, start, end - (long)size, count))
        {
            _faults.Add(new BundleFault(BundleFaultCode.Damaged, null, end, "The archive's directory is not where its end says: bytes were changed, added or taken away."));
            return;
        }

        ReadEntries(archive[..end], count);
    }

    private void NoteEnd(int length, int end, long declaredEnd)
    {
        int behind = length - end - ZipFormat.EndBytes;
        if (behind > 0)
        {
            _faults.Add(new BundleFault(BundleFaultCode.Structure, null, end + ZipFormat.EndBytes, $"Behind the end of the archive, or as a comment in it, {Are(behind)}."));
        }

        if (declaredEnd != end)
        {
            string change = declaredEnd < end ? $"{Are(end - declaredEnd)} too many" : $"{Are(declaredEnd - end)} too few";
            _faults.Add(new BundleFault(BundleFaultCode.Structure, null, end, $"Before the end of the archive {change}."));
        }
    }

    private bool TryLocate(ReadOnlySpan<byte> archive, int end, long declared, long reckoned, int count)
    {
        foreach (long start in new[] { declared, reckoned })
        {
            bool fits = start >= 0 && start + ((long)count * ZipFormat.DirectoryBytes) <= end;
            if (fits && (count == 0 || Long(archive, (int)start) == ZipFormat.DirectorySignature))
            {
                Start = (int)start;
                return true;
            }
        }

        return false;
    }

    private void ReadEntries(ReadOnlySpan<byte> archive, int count)
    {
        int at = Start;
        for (int i = 0; i < count; i++)
        {
            if (archive.Length - at < ZipFormat.DirectoryBytes || Long(archive, at) != ZipFormat.DirectorySignature
                || archive.Length - at < EntryBytes(archive[at..]))
            {
                _faults.Add(new BundleFault(BundleFaultCode.Damaged, null, at, Text($"The directory breaks off after {i} of {count} files.")));
                return;
            }

            _entries.Add(EntryAt(archive[at..]));
            at += EntryBytes(archive[at..]);
        }

        if (at != archive.Length)
        {
            _faults.Add(new BundleFault(BundleFaultCode.Structure, null, at, $"Between the directory and its end {Are(archive.Length - at)}."));
        }
    }

    private static DirectoryEntry EntryAt(ReadOnlySpan<byte> record)
    {
        int name = Short(record, 28);
        ReadOnlySpan<byte> extra = record.Slice(ZipFormat.DirectoryBytes + name, Short(record, 30));
        return new DirectoryEntry(
            Encoding.UTF8.GetString(record.Slice(ZipFormat.DirectoryBytes, name)),
            Short(record, 8), Short(record, 10), Long(record, 16), Long(record, 20), Long(record, 24), Long(record, 38), Long(record, 42), HasZip64Field(extra));
    }

    private static bool HasZip64Field(ReadOnlySpan<byte> extra)
    {
        while (extra.Length >= 4)
        {
            if (Short(extra, 0) == Zip64Field)
            {
                return true;
            }

            extra = extra[Math.Min(extra.Length, 4 + Short(extra, 2))..];
        }

        return false;
    }

    private static BundleFault NoZip(ReadOnlySpan<byte> archive) => archive.StartsWith("PK\u0003\u0004"u8)
        ? new BundleFault(BundleFaultCode.Damaged, null, archive.Length, "The archive has no directory: it was cut short or damaged.")
        : new BundleFault(BundleFaultCode.NoZip, null, 0, archive.IsEmpty ? "The file is empty." : "The file is no zip archive.");

    private static int EntryBytes(ReadOnlySpan<byte> record) => ZipFormat.DirectoryBytes + Short(record, 28) + Short(record, 30) + Short(record, 32);

    private static ushort Short(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt16LittleEndian(bytes[at..]);

    private static uint Long(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt32LittleEndian(bytes[at..]);

    private static string Are(long bytes) => (bytes == 1 ? "there is " : "there are ") + Count(bytes);

    private static string Count(long bytes) => bytes == 1 ? "1 byte" : Text($"{bytes} bytes");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
