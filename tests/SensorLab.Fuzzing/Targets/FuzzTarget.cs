using System.IO.Hashing;
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
    /// <returns>How it ended.</returns>
    /// <exception cref="InvalidOperationException">The reader took more than the file's length justifies.</exception>
    public FuzzOutcome Feed(string path)
    {
        long length = new FileInfo(path).Length;
        long before = GC.GetAllocatedBytesForCurrentThread();
        var outcome = new FuzzOutcome(null, 0);
        try
        {
            var hash = new XxHash3();
            long photosites = Decode(path, hash);
            outcome = new FuzzOutcome(null, hash.GetCurrentHashAsUInt64());
            if (photosites > PhotositesForEach * length)
            {
                throw new InvalidOperationException($"{length} bytes gave {photosites} photosites.");
            }
        }
        catch (Exception named) when (named is MalformedFileException or UnsupportedFileException)
        {
            outcome = new FuzzOutcome(named.Message, 0);
        }

        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        return allocated <= FreeBytes + (BytesForEach * length)
            ? outcome
            : throw new InvalidOperationException($"{length} bytes took {allocated} bytes of memory.");
    }

    /// <summary>Decodes a file to its end, a row at a time.</summary>
    /// <param name="path">The file.</param>
    /// <param name="pixels">Takes what is decoded.</param>
    /// <returns>The photosites decoded.</returns>
    protected abstract long Decode(string path, XxHash3 pixels);
}
