using System.Buffers.Binary;

namespace SensorLab.Fuzzing.Raw;

/// <summary>Damages raw files and JPEGs as cards, copies and people with bad intents do: by bytes, by blocks, by their directories and markers.</summary>
/// <param name="seed">The same seed gives the same files.</param>
internal sealed class RawMutator(int seed)
{
    private const int MostChanges = 3;
    private const int MostFlips = 8;
    private const int EntryBytes = 12;

    // A mutated file may name the same directory in many ways, or one inside itself.
    private const int MostDirectories = 16;
    private const int MostEntries = 200;

    private const ushort SubDirectories = 330;
    private const ushort ExifDirectory = 34665;

    private static readonly uint[] Numbers =
    [
        0, 1, 2, 3, 4, 6, 7, 8, 12, 14, 16, 17, 32, 64, 100, 255, 256, 1000, 4096, 32767, 32768, 34892, 50000, 65535, 65536, 1 << 20, 1 << 24, 1 << 28, 0x3FFFFFFF, 0x40000000,
        0x7FFFFFFF, 0x80000000, 0x80000001, 0xC0000000, 0xFFFFFFF0, 0xFFFFFFFE, 0xFFFFFFFF,
    ];

    // What the readers ask for, so that one tag takes another's values.
    private static readonly ushort[] Tags =
    [
        254, 256, 257, 258, 259, 262, 266, 271, 272, 273, 274, 277, 278, 279, 284, 305, 306, 317, 322, 323, 324, 325, 330, 339, 347, 513, 514, 33421, 33422, 33434, 33437, 34665, 34855, 36867,
        37121, 37500, 50706, 50710, 50711, 50712, 50713, 50714, 50715, 50716, 50717, 50718, 50735, 50829, 50830, 50935, 51008,
    ];

    private readonly Random _random = new(seed);

    /// <summary>A file with one to three changes.</summary>
    /// <param name="sound">The file.</param>
    public byte[] Mutate(byte[] sound)
    {
        byte[] file = [.. sound];
        for (int changes = _random.Next(1, MostChanges + 1); changes > 0 && file.Length > 0; changes--)
        {
            file = Change(file);
        }

        return file;
    }

    private byte[] Change(byte[] file)
    {
        switch (_random.Next(16))
        {
            case 0:
                return file[..Place(file)];
            case 1:
                return [.. file[..Place(file)], .. file[Place(file)..]];
            case 2:
                byte[] more = new byte[_random.Next(1, 5000)];
                _random.NextBytes(more);
                return [.. file, .. more];
            case 3:
                Flip(file);
                return file;
            case 4 or 5:
                Span<byte> block = Block(file);
                block.Fill((byte)(_random.Next(3) switch { 0 => 0, 1 => 255, _ => _random.Next(256) }));
                return file;
            case 6:
                Span<byte> from = Block(file);
                from.CopyTo(file.AsSpan(_random.Next(file.Length - from.Length + 1)));
                return file;
            case 7 or 8 or 9:
                ChangeMarker(file);
                return file;
            default:
                ChangeEntry(file);
                return file;
        }
    }

    // Half of them near the end, where directories and their values lie.
    private int Place(byte[] file) => _random.Next(2) == 0 ? _random.Next(file.Length) : Math.Max(0, file.Length - 1 - _random.Next(600));

    private Span<byte> Block(byte[] file)
    {
        int at = Place(file);
        int length = (int)Math.Pow(file.Length - at, _random.NextDouble());
        return file.AsSpan(at, length);
    }

    private void Flip(byte[] file)
    {
        for (int flips = _random.Next(1, MostFlips + 1); flips > 0; flips--)
        {
            file[Place(file)] ^= (byte)(1 << _random.Next(8));
        }
    }

    private void ChangeEntry(byte[] file)
    {
        bool isBigEndian = file[0] == 'M';
        List<int> entries = Entries(file, isBigEndian);
        if (entries.Count == 0)
        {
            Flip(file);
            return;
        }

        Span<byte> entry = file.AsSpan(entries[_random.Next(entries.Count)], EntryBytes);
        switch (_random.Next(6))
        {
            case 0:
                Write16(entry, Tags[_random.Next(Tags.Length)], isBigEndian);
                break;
            case 1:
                Write16(entry[2..], (ushort)_random.Next(16), isBigEndian);
                break;
            case 2:
                Write32(entry[4..], Number(file), isBigEndian);
                break;
            case 3:
                Write16(entry[8..], (ushort)Number(file), isBigEndian);
                break;
            case 4:
                uint at = Read32(entry[8..], isBigEndian);
                int target = at < file.Length - 4 ? (int)at : entries[0];
                Write32(file.AsSpan(target, 4), Number(file), isBigEndian);
                break;
            default:
                Write32(entry[8..], Number(file), isBigEndian);
                break;
        }
    }

    // Where the entries of every directory begin.
    private static List<int> Entries(byte[] file, bool isBigEndian)
    {
        var entries = new List<int>();
        var directories = new Queue<uint>();
        if (file.Length > 8)
        {
            directories.Enqueue(Read32(file.AsSpan(4), isBigEndian));
        }

        for (int seen = 0; seen < MostDirectories && directories.TryDequeue(out uint start); seen++)
        {
            if (start < 8 || start > file.Length - 2)
            {
                continue;
            }

            int count = Math.Min(MostEntries, (int)Read16(file.AsSpan((int)start), isBigEndian));
            for (int i = 0; i < count && start + 2 + ((i + 1) * EntryBytes) <= file.Length; i++)
            {
                int at = (int)start + 2 + (i * EntryBytes);
                entries.Add(at);
                if (Read16(file.AsSpan(at), isBigEndian) is SubDirectories or ExifDirectory)
                {
                    directories.Enqueue(Read32(file.AsSpan(at + 8), isBigEndian));
                }
            }
        }

        return entries;
    }

    // Segments of any JPEG in the file, lossless ones too: their length, and the sizes, tables and predictors behind it.
    private void ChangeMarker(byte[] file)
    {
        int[] starts = [.. Enumerable.Range(0, Math.Max(0, file.Length - 12)).Where(i => file[i] == 0xFF && file[i + 1] == 0xD8 && file[i + 2] == 0xFF)];
        if (starts.Length == 0)
        {
            ChangeEntry(file);
            return;
        }

        int at = starts[_random.Next(starts.Length)] + 2;
        for (int steps = _random.Next(8); steps > 0; steps--)
        {
            int next = at + 2 + Read16(file.AsSpan(at + 2), isBigEndian: true);
            if (next > file.Length - 12 || file[next] != 0xFF)
            {
                break;
            }

            at = next;
        }

        switch (_random.Next(4))
        {
            case 0:
                file[at + 1] = (byte)_random.Next(0xC0, 0x100);
                break;
            case 1:
                Write16(file.AsSpan(at + 2), (ushort)Number(file), isBigEndian: true);
                break;
            case 2:
                Write16(file.AsSpan(at + 5 + (2 * _random.Next(2))), (ushort)Number(file), isBigEndian: true);
                break;
            default:
                file[at + 4 + _random.Next(8)] = (byte)_random.Next(256);
                break;
        }
    }

    private uint Number(byte[] file) => _random.Next(4) switch
    {
        0 => (uint)(file.Length + _random.Next(-2, 3)),
        1 => (uint)_random.Next(file.Length),
        _ => Numbers[_random.Next(Numbers.Length)],
    };

    private static ushort Read16(ReadOnlySpan<byte> at, bool isBigEndian) => isBigEndian ? BinaryPrimitives.ReadUInt16BigEndian(at) : BinaryPrimitives.ReadUInt16LittleEndian(at);

    private static uint Read32(ReadOnlySpan<byte> at, bool isBigEndian) => isBigEndian ? BinaryPrimitives.ReadUInt32BigEndian(at) : BinaryPrimitives.ReadUInt32LittleEndian(at);

    private static void Write16(Span<byte> at, ushort number, bool isBigEndian)
    {
        if (isBigEndian)
        {
            BinaryPrimitives.WriteUInt16BigEndian(at, number);
        }
        else
        {
            BinaryPrimitives.WriteUInt16LittleEndian(at, number);
        }
    }

    private static void Write32(Span<byte> at, uint number, bool isBigEndian)
    {
        if (isBigEndian)
        {
            BinaryPrimitives.WriteUInt32BigEndian(at, number);
        }
        else
        {
            BinaryPrimitives.WriteUInt32LittleEndian(at, number);
        }
    }
}
