using System.Buffers.Binary;
using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>
/// What a maker's file has to show before LibRaw, native code that no exception handler can guard, sees it:
/// a raw format's header, a sane length, and picture data that end inside the file.
/// </summary>
/// <remarks>TIFF 6.0, chapter 2; ISO/IEC 14496-12, clause 4.2; CIFF 1.0, chapter 3.</remarks>
internal static class RawFileScreen
{
    /// <summary>No raw file of any maker is shorter: its directories and thumbnail alone take more.</summary>
    private const int SmallestFileBytes = 4096;

    private const int HeaderBytes = 128;
    private const int MostBoxes = 1000;
    private const int RafJpegPointer = 84;
    private const int RafMosaicPointer = 100;

    /// <summary>Checks a file.</summary>
    /// <param name="file">The open file; read by position.</param>
    /// <exception cref="MalformedFileException">It is too short, or its picture data end behind its end.</exception>
    /// <exception cref="UnsupportedFileException">No raw format begins as it does.</exception>
    public static void Check(RandomAccessFile file)
    {
        if (file.Length < SmallestFileBytes)
        {
            throw new MalformedFileException("The file is too short to be a raw file.");
        }

        byte[] header = Read(file, 0, HeaderBytes);
        ReadOnlySpan<byte> start = header;
        if (start.StartsWith("FUJIFILMCCD-RAW "u8))
        {
            CheckPointers(file, start);
        }
        else if (start[6..].StartsWith("HEAPCCDR"u8) && IsByteOrder(start))
        {
            CheckHeap(file, start);
        }
        else if (start[4..].StartsWith("ftypcrx "u8))
        {
            CheckBoxes(file);
        }
        else if (IsTiff(start))
        {
            PicturePlaces.RequireInside(file, TiffReader.ReadSound(file).Images);
        }
        else if (!IsPlainTiffRelative(start) && !start.StartsWith("\0MRM"u8) && !start.StartsWith("FOVb"u8))
        {
            throw LibRawRefusal.UnknownFormat();
        }
    }

    /// <summary>Reads bytes at a position.</summary>
    /// <exception cref="MalformedFileException">The file ends before them.</exception>
    internal static byte[] Read(RandomAccessFile file, long position, int length)
    {
        if (!file.Holds(position, length))
        {
            throw Truncated();
        }

        byte[] bytes = new byte[length];
        file.Read(position, bytes);
        return bytes;
    }

    /// <summary>The exception for data that the file does not hold.</summary>
    internal static MalformedFileException Truncated() => new("The file ends before its picture data do.");

    /// <summary>Whether a header is that of plain TIFF.</summary>
    internal static bool IsTiff(ReadOnlySpan<byte> start) => start.StartsWith("II*\0"u8) || start.StartsWith("MM\0*"u8);

    private static bool IsByteOrder(ReadOnlySpan<byte> start) => start.StartsWith("II"u8) || start.StartsWith("MM"u8);

    /// <summary>Makers' variants of TIFF whose strip tables follow rules of their own: left to LibRaw.</summary>
    private static bool IsPlainTiffRelative(ReadOnlySpan<byte> start) =>
        start.StartsWith("IIU\0"u8) || start.StartsWith("IIRO"u8) || start.StartsWith("IIRS"u8) || start.StartsWith("MMOR"u8);

    private static void CheckPointers(RandomAccessFile file, ReadOnlySpan<byte> header)
    {
        foreach (int pointer in (ReadOnlySpan<int>)[RafJpegPointer, RafMosaicPointer])
        {
            long end = (long)BinaryPrimitives.ReadUInt32BigEndian(header[pointer..]) + BinaryPrimitives.ReadUInt32BigEndian(header[(pointer + 4)..]);
            if (end > file.Length)
            {
                throw Truncated();
            }
        }
    }

    /// <summary>A heap's directory stands at its end; a cut file has none that makes sense.</summary>
    private static void CheckHeap(RandomAccessFile file, ReadOnlySpan<byte> header)
    {
        bool isBig = header[0] == 'M';
        long heap = Word(header[2..], isBig);
        long directory = heap + Word(Read(file, file.Length - 4, 4), isBig);
        byte[] count = Read(file, directory, 2);
        int entries = isBig ? BinaryPrimitives.ReadUInt16BigEndian(count) : BinaryPrimitives.ReadUInt16LittleEndian(count);
        byte[] table = Read(file, directory + 2, entries * 10);
        for (int i = 0; i < entries; i++)
        {
            ReadOnlySpan<byte> entry = table.AsSpan(10 * i, 10);
            int type = isBig ? BinaryPrimitives.ReadUInt16BigEndian(entry) : BinaryPrimitives.ReadUInt16LittleEndian(entry);
            bool isInHeap = (type & 0xC000) == 0;
            if (isInHeap && heap + Word(entry[6..], isBig) + Word(entry[2..], isBig) > directory)
            {
                throw Truncated();
            }
        }
    }

    private static void CheckBoxes(RandomAccessFile file)
    {
        long position = 0;
        for (int box = 0; box < MostBoxes && position < file.Length; box++)
        {
            ulong length = BinaryPrimitives.ReadUInt32BigEndian(Read(file, position, 8));
            if (length == 1)
            {
                length = BinaryPrimitives.ReadUInt64BigEndian(Read(file, position + 8, 8));
            }

            if (length == 0)
            {
                return;
            }

            if (length < 8 || length > (ulong)(file.Length - position))
            {
                throw Truncated();
            }

            position += (long)length;
        }
    }

    private static uint Word(ReadOnlySpan<byte> bytes, bool isBig) =>
        isBig ? BinaryPrimitives.ReadUInt32BigEndian(bytes) : BinaryPrimitives.ReadUInt32LittleEndian(bytes);
}
