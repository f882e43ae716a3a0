using Microsoft.Win32.SafeHandles;
using SensorLab.Files;
using SensorLab.Frames;

namespace SensorLab.RawFiles;

/// <summary>A file read by position: no shared cursor, no buffer of its own, nothing read that was not asked for.</summary>
internal sealed class RandomAccessFile : IDisposable
{
    private readonly SafeFileHandle _handle;

    private RandomAccessFile(SafeFileHandle handle)
    {
        _handle = handle;
        Length = RandomAccess.GetLength(handle);
    }

    /// <summary>The file's length in bytes when it was opened.</summary>
    public long Length { get; }

    /// <summary>Is told of all that <see cref="Read"/> reads from now on; null for nobody.</summary>
    public FileDigest? Digest { get; set; }

    /// <summary>Opens a file for reading.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">The file is not there, no plain file, or cannot be opened.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read, or is a folder.</exception>
    public static RandomAccessFile Open(string path) =>
        new(PlainFile.OpenHandle(path));

    /// <summary>Whether a stretch lies inside the file.</summary>
    /// <param name="offset">Its first byte.</param>
    /// <param name="bytes">Its length.</param>
    public bool Holds(long offset, long bytes) => offset >= 0 && bytes >= 0 && bytes <= Length && offset <= Length - bytes;

    /// <summary>Reads a stretch.</summary>
    /// <param name="offset">Its first byte.</param>
    /// <param name="target">Filled whole.</param>
    /// <exception cref="MalformedFileException">The stretch does not lie inside the file.</exception>
    public void Read(long offset, Span<byte> target)
    {
        ReadAside(offset, target);
        Digest?.Pass(offset, target);
    }

    /// <summary>Reads a stretch of which <see cref="Digest"/> is not told.</summary>
    /// <param name="offset">Its first byte.</param>
    /// <param name="target">Filled whole.</param>
    /// <exception cref="MalformedFileException">The stretch does not lie inside the file.</exception>
    public void ReadAside(long offset, Span<byte> target)
    {
        if (!Holds(offset, target.Length))
        {
            throw new MalformedFileException($"It points to bytes {offset} to {offset + target.Length}, but it ends at {Length}.");
        }

        while (!target.IsEmpty)
        {
            int read = RandomAccess.Read(_handle, target, offset);
            if (read == 0)
            {
                throw new MalformedFileException($"It ended at byte {offset} while it was read.");
            }

            offset += read;
            target = target[read..];
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _handle.Dispose();
}
