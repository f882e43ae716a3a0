using System.Buffers.Binary;
using SensorLab.Frames;

namespace SensorLab.RawFiles.Tiff;

/// <summary>
/// Reads the directories of a TIFF file: the chain from the header, the sub-directories below it and Exif's.
/// Whatever the file claims, the work is bounded: so many directories, so many entries, each directory once.
/// </summary>
/// <remarks>TIFF 6.0, section 2; SubIFDs from TIFF Technical Note 1; Exif 2.32, clause 4.6.3.</remarks>
internal sealed class TiffReader
{
    /// <summary>More directories than a raw file has: the raw image, previews, depth and mask planes.</summary>
    private const int MostDirectories = 64;

    private const int MostEntries = 2048;
    private const int HeaderBytes = 8;
    private const int EntryBytes = 12;
    private const ushort ClassicVersion = 42;

    private readonly RandomAccessFile _file;
    private readonly bool _passesDamage;
    private readonly HashSet<long> _seen = [];
    private readonly List<TiffDirectory> _directories = [];

    private TiffReader(RandomAccessFile file, bool isBigEndian, bool passesDamage)
    {
        _file = file;
        _passesDamage = passesDamage;
        IsBigEndian = isBigEndian;
    }

    /// <summary>The file's byte order.</summary>
    public bool IsBigEndian { get; }

    /// <summary>The first directory.</summary>
    public TiffDirectory First => _directories[0];

    /// <summary>The directories of images: the first one's chain, each followed by its sub-directories.</summary>
    public IReadOnlyList<TiffDirectory> Images => _directories;

    /// <summary>Exif's directory, null where the file has none.</summary>
    public TiffDirectory? Exif { get; private set; }

    /// <summary>Whether a file starts as a TIFF file does.</summary>
    /// <param name="file">The file.</param>
    public static bool IsTiff(RandomAccessFile file)
    {
        Span<byte> header = stackalloc byte[HeaderBytes];
        if (file.Length < HeaderBytes)
        {
            return false;
        }

        file.Read(0, header);
        return header[..4] is [(byte)'I', (byte)'I', (byte)ClassicVersion, 0] or [(byte)'M', (byte)'M', 0, (byte)ClassicVersion];
    }

    /// <summary>Reads all directories.</summary>
    /// <param name="file">The file; the directories read their values from it as long as it is open.</param>
    /// <exception cref="MalformedFileException">
    /// No TIFF file, a directory or a tag's value outside the file, a directory named twice, or more directories or entries than make sense.
    /// </exception>
    public static TiffReader Read(RandomAccessFile file)
    {
        TiffReader reader = Start(file, passesDamage: false);
        reader.ReadExif();
        return reader;
    }

    /// <summary>
    /// Reads the directories of images that are sound, and passes over the others: makers bend TIFF in ways that only their
    /// own decoder need understand. Sub-directories of sub-directories count too.
    /// </summary>
    /// <param name="file">The file; the directories read their values from it as long as it is open.</param>
    /// <exception cref="MalformedFileException">No TIFF file, or its first directory is damaged.</exception>
    public static TiffReader ReadSound(RandomAccessFile file) => Start(file, passesDamage: true);

    private static TiffReader Start(RandomAccessFile file, bool passesDamage)
    {
        if (!IsTiff(file))
        {
            throw new MalformedFileException("It does not start as a TIFF file.");
        }

        Span<byte> header = stackalloc byte[HeaderBytes];
        file.Read(0, header);
        var reader = new TiffReader(file, header[0] == (byte)'M', passesDamage);
        reader.ReadChain(reader.Unsigned32(header[4..]));
        return reader;
    }

    private void ReadChain(long offset)
    {
        if (offset == 0)
        {
            throw new MalformedFileException("It has no directory.");
        }

        while (offset != 0)
        {
            if (ReadOrPass(offset) is not (TiffDirectory directory, long next))
            {
                return;
            }

            _directories.Add(directory);
            ReadSubdirectories(directory);
            offset = next;
        }
    }

    private void ReadSubdirectories(TiffDirectory parent)
    {
        foreach (uint offset in _passesDamage ? parent.SoundIntegers(TiffTag.SubIfds, MostDirectories) : parent.Integers(TiffTag.SubIfds, MostDirectories))
        {
            if (ReadOrPass(offset) is not (TiffDirectory directory, _))
            {
                continue;
            }

            _directories.Add(directory);
            if (_passesDamage)
            {
                ReadSubdirectories(directory);
            }
        }
    }

    private void ReadExif()
    {
        if (First.Integer(TiffTag.ExifIfd) is uint offset)
        {
            Exif = ReadDirectory(offset).Directory;
        }
    }

    private (TiffDirectory Directory, long Next)? ReadOrPass(long offset)
    {
        try
        {
            return ReadDirectory(offset);
        }
        catch (MalformedFileException) when (_passesDamage && _directories.Count > 0)
        {
            return null;
        }
    }

    private (TiffDirectory Directory, long Next) ReadDirectory(long offset)
    {
        if (!_seen.Add(offset))
        {
            throw new MalformedFileException($"The directory at byte {offset} is named twice.");
        }

        if (_seen.Count > MostDirectories)
        {
            throw new MalformedFileException($"It has more than {MostDirectories} directories.");
        }

        Span<byte> number = stackalloc byte[4];
        _file.Read(offset, number[..2]);
        int count = Unsigned16(number);
        if (count is 0 or > MostEntries)
        {
            throw new MalformedFileException($"The directory at byte {offset} claims {count} entries.");
        }

        var bytes = new byte[count * EntryBytes];
        _file.Read(offset + 2, bytes);
        long nextAt = offset + 2 + bytes.Length;
        long next = 0;
        if (_file.Holds(nextAt, 4))
        {
            _file.Read(nextAt, number);
            next = Unsigned32(number);
        }

        return (new TiffDirectory(_file, IsBigEndian, EntriesOf(bytes, offset + 2)), next);
    }

    private Dictionary<ushort, TiffEntry> EntriesOf(ReadOnlySpan<byte> bytes, long start)
    {
        var entries = new Dictionary<ushort, TiffEntry>(bytes.Length / EntryBytes);
        for (int at = 0; at < bytes.Length; at += EntryBytes)
        {
            ReadOnlySpan<byte> entry = bytes.Slice(at, EntryBytes);
            var type = (TiffFieldType)Unsigned16(entry[2..]);
            int size = TiffEntry.BytesOf(type);
            if (size == 0)
            {
                // TIFF 6.0, section 2: a reader skips fields of a type that it does not know.
                continue;
            }

            uint count = Unsigned32(entry[4..]);
            bool isInline = count * (long)size <= 4;
            long valueOffset = isInline ? start + at + 8 : Unsigned32(entry[8..]);
            if (!_passesDamage && !_file.Holds(valueOffset, count * (long)size))
            {
                throw new MalformedFileException($"The value of its tag {Unsigned16(entry)} lies behind its end: it was cut short.");
            }

            entries.TryAdd(Unsigned16(entry), new TiffEntry(type, count, valueOffset));
        }

        return entries;
    }

    private ushort Unsigned16(ReadOnlySpan<byte> value) =>
        IsBigEndian ? BinaryPrimitives.ReadUInt16BigEndian(value) : BinaryPrimitives.ReadUInt16LittleEndian(value);

    private uint Unsigned32(ReadOnlySpan<byte> value) =>
        IsBigEndian ? BinaryPrimitives.ReadUInt32BigEndian(value) : BinaryPrimitives.ReadUInt32LittleEndian(value);
}
