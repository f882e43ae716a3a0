using System.Buffers.Binary;
using System.IO.Hashing;

namespace SensorLab.RawFiles;

/// <summary>A cheap key of image data: a hash of pieces spread evenly over them, and of their length.</summary>
internal static class ContentKey
{
    private const int Pieces = 16;
    private const int PieceBytes = 4096;

    /// <summary>The key of the stretches of a file that hold an image.</summary>
    /// <param name="file">The file.</param>
    /// <param name="places">The stretches, each inside the file.</param>
    /// <returns>XXH3 of 64 KiB at most.</returns>
    public static ulong Of(RandomAccessFile file, IEnumerable<(long Offset, long Bytes)> places)
    {
        (long Offset, long Bytes)[] stretches = [.. places];
        long total = stretches.Sum(stretch => stretch.Bytes);
        var hash = new XxHash3();
        Span<byte> piece = stackalloc byte[PieceBytes];
        BinaryPrimitives.WriteInt64LittleEndian(piece, total);
        hash.Append(piece[..sizeof(long)]);
        long step = Math.Max(PieceBytes, (total - PieceBytes) / (Pieces - 1));
        long start = 0;
        long wanted = 0;
        int taken = 0;
        foreach ((long offset, long bytes) in stretches)
        {
            for (; wanted < start + bytes && taken < Pieces; taken++, wanted += step)
            {
                long inside = wanted - start;
                Span<byte> target = piece[..(int)Math.Min(PieceBytes, bytes - inside)];
                file.Read(offset + inside, target);
                hash.Append(target);
            }

            start += bytes;
        }

        return hash.GetCurrentHashAsUInt64();
    }
}
