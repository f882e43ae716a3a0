using System.Runtime.CompilerServices;

namespace SensorLab.RawFiles.Metadata;

/// <summary>A file that stops answering a reader that goes round in circles, and spares it the bulk of embedded files.</summary>
/// <param name="file">The file; stays the caller's.</param>
internal sealed class BoundedMetadataStream(FileStream file) : Stream
{
    /// <summary>Longer values (an embedded original, a noise table) are no metadata that is used: delivered as zeros.</summary>
    private const int LongestValueBytes = 1 << 18;

    /// <summary>The most that a real file tried takes is 26,000.</summary>
    private const int MostReads = 1_000_000;

    private const long MostBytes = 64L << 20;
    private const int MostLongValues = 64;

    private int _reads;
    private int _longValues;
    private long _bytes;

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => true;

    /// <inheritdoc/>
    public override bool CanWrite => false;

    /// <inheritdoc/>
    public override long Length => file.Length;

    /// <summary>Reads so far.</summary>
    public int Reads => _reads;

    /// <inheritdoc/>
    public override long Position
    {
        get => file.Position;
        set => file.Position = value;
    }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public override int Read(Span<byte> buffer)
    {
        RuntimeHelpers.EnsureSufficientExecutionStack();
        bool isLong = buffer.Length > LongestValueBytes;
        _longValues += isLong ? 1 : 0;
        _bytes += isLong ? 0 : buffer.Length;
        if (++_reads > MostReads || _bytes > MostBytes || _longValues > MostLongValues)
        {
            throw new IOException("The metadata take more reading than any real file's.");
        }

        if (!isLong)
        {
            return file.Read(buffer);
        }

        int length = (int)Math.Clamp(file.Length - file.Position, 0, buffer.Length);
        buffer[..length].Clear();
        file.Position += length;
        return length;
    }

    /// <inheritdoc/>
    public override int ReadByte()
    {
        Span<byte> one = stackalloc byte[1];
        return Read(one) == 0 ? -1 : one[0];
    }

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => file.Seek(offset, origin);

    /// <inheritdoc/>
    public override void Flush()
    {
    }

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
