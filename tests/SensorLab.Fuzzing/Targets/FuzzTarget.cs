using SensorLab.Frames;

namespace SensorLab.Fuzzing.Targets;

/// <summary>
/// What a reader owes any bytes: success or a named error, in memory and pixels that the file's length justifies. Time is
/// the fuzzer's to watch.
/// </summary>
internal abstract class FuzzTarget
{
    /// <summary>What opening and one line of the largest image cost, whatever the file.</summary>
    private const long FreeBytes = 8 << 20;

    /// <summary>Allocated bytes, garbage included, for each byte of the file: a Huffman table of 17 bytes takes 9 KB.</summary>
    private const long BytesForEach = 1024;

    /// <summary>Deflate's highest ratio of 1032 bytes a byte; every photosite takes a byte or more of them.</summary>
    private const long PhotositesForEach = 1032;

    /// <summary>The target's name on the command line.</summary>
    public abstract string Name { get; }

    /// <summary>Feeds a file to the reader.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The named error's message, null where the file decodes.</returns>
    /// <exception cref="InvalidOperationException">The reader took more than the file's length justifies.</exception>
    public string? Feed(string path)
    {
        long length = new FileInfo(path).Length;
        long before = GC.GetAllocatedBytesForCurrentThread();
        string? error = null;
        try
        {
            long photosites = Decode(path);
            if (photosites > PhotositesForEach * length)
            {
                throw new InvalidOperationException($"{length} bytes gave {photosites} photosites.");
            }
        }
        catch (Exception named) when (named is MalformedFileException or UnsupportedFileException)
        {
            error = named.Message;
        }

        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        return allocated <= FreeBytes + (BytesForEach * length)
            ? error
            : throw new InvalidOperationException($"{length} bytes took {allocated} bytes of memory.");
    }

    /// <summary>Decodes a file to its end, a row at a time.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The photosites decoded.</returns>
    protected abstract long Decode(string path);
}
