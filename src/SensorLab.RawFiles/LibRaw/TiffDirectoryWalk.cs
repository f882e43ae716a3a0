using System.Buffers.Binary;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>Reads whole numbers out of a TIFF's directories, each once: chained and subordinate ones, a bounded number of them.</summary>
/// <remarks>TIFF 6.0, chapter 2; TIFF technical note 1, SubIFDs.</remarks>
internal sealed class TiffDirectoryWalk
{
    private const int MostDirectories = 64;
    private const int MostEntries = 4096;
    private const int MostValues = 1 << 20;
    private const ushort SubDirectories = 330;
    private const int EntryBytes = 12;

    private readonly Stream _file;
    private readonly bool _isBig;
    private readonly HashSet<ushort> _tags;
    private readonly Queue<long> _pending = new();
    private readonly HashSet<long> _seen = [];

    private TiffDirectoryWalk(Stream file, bool isBig, IEnumerable<ushort> tags)
    {
        _file = file;
        _isBig = isBig;
        _tags = [.. tags, SubDirectories];
    }

    /// <summary>Reads the directories one after the other.</summary>
    /// <param name="file">The open file, of 8 bytes or more.</param>
    /// <param name="tags">The tags wanted; those of types SHORT, LONG, IFD and BYTE are read.</param>
    /// <returns>Of each directory the tags that it has; values outside of the file are left out.</returns>
    /// <exception cref="MalformedFileException">The first directory lies outside of the file.</exception>
    public static IEnumerable<IReadOnlyDictionary<ushort, uint[]>> Read(Stream file, params IEnumerable<ushort> tags)
    {
        byte[] header = RawFileScreen.Read(file, 0, 8);
        TiffDirectoryWalk walk = new(file, header[0] == 'M', tags);
        walk._pending.Enqueue(walk.Long(header.AsSpan(4)));
        bool isFirst = true;
        while (walk._seen.Count < MostDirectories && walk._pending.TryDequeue(out long offset))
        {
            Dictionary<ushort, uint[]>? directory = offset != 0 && walk._seen.Add(offset) ? walk.Directory(offset) : null;
            if (directory is not null)
            {
                yield return directory;
            }
            else if (isFirst)
            {
                throw new MalformedFileException("The file's first directory lies outside of it.");
            }

            isFirst = false;
        }
    }

    private Dictionary<ushort, uint[]>? Directory(long offset)
    {
        int count = offset >= 8 && offset + 2 <= _file.Length ? Short(RawFileScreen.Read(_file, offset, 2)) : -1;
        long end = offset + 2 + ((long)EntryBytes * count);
        if (count is < 0 or > MostEntries || end > _file.Length)
        {
            return null;
        }

        byte[] table = RawFileScreen.Read(_file, offset + 2, EntryBytes * count);
        Dictionary<ushort, uint[]> values = [];
        for (int i = 0; i < count; i++)
        {
            ReadOnlySpan<byte> entry = table.AsSpan(EntryBytes * i, EntryBytes);
            ushort tag = Short(entry);
            if (_tags.Contains(tag) && Values(entry) is { Length: > 0 } read)
            {
                values[tag] = read;
            }
        }

        foreach (uint child in values.GetValueOrDefault(SubDirectories, []).Take(MostDirectories))
        {
            _pending.Enqueue(child);
        }

        if (end + 4 <= _file.Length)
        {
            _pending.Enqueue(Long(RawFileScreen.Read(_file, end, 4)));
        }

        return values;
    }

    private uint[] Values(ReadOnlySpan<byte> entry)
    {
        int size = Short(entry[2..]) switch { 1 => 1, 3 => 2, 4 or 13 => 4, _ => 0 };
        uint count = Long(entry[4..]);
        if (size == 0 || count is 0 or > MostValues)
        {
            return [];
        }

        int length = (int)count * size;
        long position = Long(entry[8..]);
        if (length > 4 && position + length > _file.Length)
        {
            return [];
        }

        byte[] bytes = length <= 4 ? entry[8..12].ToArray() : RawFileScreen.Read(_file, position, length);
        uint[] values = new uint[count];
        for (int i = 0; i < values.Length; i++)
        {
            ReadOnlySpan<byte> value = bytes.AsSpan(size * i);
            values[i] = size switch { 1 => value[0], 2 => Short(value), _ => Long(value) };
        }

        return values;
    }

    private ushort Short(ReadOnlySpan<byte> bytes) =>
        _isBig ? BinaryPrimitives.ReadUInt16BigEndian(bytes) : BinaryPrimitives.ReadUInt16LittleEndian(bytes);

    private uint Long(ReadOnlySpan<byte> bytes) =>
        _isBig ? BinaryPrimitives.ReadUInt32BigEndian(bytes) : BinaryPrimitives.ReadUInt32LittleEndian(bytes);
}
