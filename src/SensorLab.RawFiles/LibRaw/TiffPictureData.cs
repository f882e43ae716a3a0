using System.Buffers.Binary;
using SensorLab.Frames;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>Whether the strips and tiles that a TIFF's directories list lie inside the file.</summary>
/// <remarks>TIFF 6.0: StripOffsets, StripByteCounts; TIFF technical note 1: SubIFDs; DNG 1.7: tiles.</remarks>
internal sealed class TiffPictureData
{
    private const int MostDirectories = 64;
    private const int MostEntries = 4096;
    private const int MostPieces = 1 << 20;
    private const ushort SubDirectories = 330;

    private static readonly (ushort Offsets, ushort Lengths)[] Pieces = [(273, 279), (324, 325)];

    private readonly Stream _file;
    private readonly bool _isBig;
    private readonly Queue<long> _pending = new();
    private readonly HashSet<long> _seen = [];

    private TiffPictureData(Stream file, bool isBig)
    {
        _file = file;
        _isBig = isBig;
    }

    /// <summary>Walks the directories, each once.</summary>
    /// <param name="file">The open file.</param>
    /// <param name="isBigEndian">Its byte order.</param>
    /// <exception cref="MalformedFileException">The first directory or a picture lies outside of the file.</exception>
    public static void Check(Stream file, bool isBigEndian)
    {
        TiffPictureData walk = new(file, isBigEndian);
        walk._pending.Enqueue(walk.Long(RawFileScreen.Read(file, 4, 4)));
        bool isFirst = true;
        while (walk._seen.Count < MostDirectories && walk._pending.TryDequeue(out long offset))
        {
            if (offset != 0 && walk._seen.Add(offset) && !walk.TryDirectory(offset) && isFirst)
            {
                throw new MalformedFileException("The file's first directory lies outside of it.");
            }

            isFirst = false;
        }
    }

    private bool TryDirectory(long offset)
    {
        if (offset < 8 || offset + 2 > _file.Length)
        {
            return false;
        }

        int count = Short(RawFileScreen.Read(_file, offset, 2));
        if (count > MostEntries || offset + 2 + (12L * count) > _file.Length)
        {
            return false;
        }

        byte[] table = RawFileScreen.Read(_file, offset + 2, 12 * count);
        Dictionary<ushort, uint[]> values = [];
        for (int i = 0; i < count; i++)
        {
            ReadOnlySpan<byte> entry = table.AsSpan(12 * i, 12);
            ushort tag = Short(entry);
            if (tag == SubDirectories || Pieces.Any(p => p.Offsets == tag || p.Lengths == tag))
            {
                values[tag] = Values(entry);
            }
        }

        foreach (uint child in values.GetValueOrDefault(SubDirectories, []).Take(MostDirectories))
        {
            _pending.Enqueue(child);
        }

        CheckPieces(values);
        long next = offset + 2 + (12L * count);
        if (next + 4 <= _file.Length)
        {
            _pending.Enqueue(Long(RawFileScreen.Read(_file, next, 4)));
        }

        return true;
    }

    private void CheckPieces(Dictionary<ushort, uint[]> values)
    {
        foreach ((ushort offsets, ushort lengths) in Pieces)
        {
            uint[] starts = values.GetValueOrDefault(offsets, []);
            uint[] sizes = values.GetValueOrDefault(lengths, []);
            if (starts.Length == sizes.Length && starts.Zip(sizes, (start, size) => (long)start + size).Any(end => end > _file.Length))
            {
                throw RawFileScreen.Truncated();
            }
        }
    }

    /// <summary>Values of type SHORT, LONG or IFD; none for other types or values outside of the file.</summary>
    private uint[] Values(ReadOnlySpan<byte> entry)
    {
        int size = Short(entry[2..]) switch { 3 => 2, 4 or 13 => 4, _ => 0 };
        uint count = Long(entry[4..]);
        if (size == 0 || count == 0 || count > MostPieces)
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
            values[i] = size == 2 ? Short(bytes.AsSpan(2 * i)) : Long(bytes.AsSpan(4 * i));
        }

        return values;
    }

    private ushort Short(ReadOnlySpan<byte> bytes) =>
        _isBig ? BinaryPrimitives.ReadUInt16BigEndian(bytes) : BinaryPrimitives.ReadUInt16LittleEndian(bytes);

    private uint Long(ReadOnlySpan<byte> bytes) =>
        _isBig ? BinaryPrimitives.ReadUInt32BigEndian(bytes) : BinaryPrimitives.ReadUInt32LittleEndian(bytes);
}
