namespace SensorLab.RawFiles;

/// <summary>A stretch of a file as a stream, for decoders that want one.</summary>
internal sealed class FileSliceStream : Stream
{
    private readonly RandomAccessFile _file;
    private readonly long _end;
    private long _at;

    /// <summary>Creates a stream.</summary>
    /// <param name="file">The file, which stays the caller's.</param>
    /// <param name="offset">The stretch's first byte.</param>
    /// <param name="bytes">Its length.</param>
    public FileSliceStream(RandomAccessFile file, long offset, long bytes)
    {
        _file = file;
        _at = offset;
        _end = offset + bytes;
    }

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => false;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    /// <inheritdoc/>
    public override int Read(Span<byte> buffer)
    {
        int count = (int)Math.Min(buffer.Length, _end - _at);
        _file.Read(_at, buffer[..count]);
        _at += count;
        return count;
    }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public override void Flush()
    {
        // Nothing is written.
    }

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
