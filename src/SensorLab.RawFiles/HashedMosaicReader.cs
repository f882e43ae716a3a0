using SensorLab.Frames;

namespace SensorLab.RawFiles;

/// <summary>A frame's reader that also tells the SHA-256 of its file, which is read once for both.</summary>
public sealed class HashedMosaicReader : IMosaicReader
{
    private readonly IMosaicReader _mosaic;
    private readonly RandomAccessFile _file;
    private readonly FileDigest _digest;

    /// <summary>Starts the hash at the file's first byte.</summary>
    /// <param name="mosaic">The frame's reader; disposed with this one.</param>
    /// <param name="file">The file; disposed with this reader.</param>
    internal HashedMosaicReader(IMosaicReader mosaic, RandomAccessFile file)
    {
        _mosaic = mosaic;
        _file = file;
        _digest = new FileDigest(file);
    }

    /// <inheritdoc/>
    public RawFrame Frame => _mosaic.Frame;

    /// <inheritdoc/>
    public int PreferredRows => _mosaic.PreferredRows;

    /// <inheritdoc/>
    public int RestartRows => _mosaic.RestartRows;

    /// <inheritdoc/>
    public void SkipRows(int count) => _mosaic.SkipRows(count);

    /// <inheritdoc/>
    public void ReadRows(Span<ushort> rows) => _mosaic.ReadRows(rows);

    /// <summary>Hashes what passes when the frame's own reader reads the file.</summary>
    internal HashedMosaicReader Following()
    {
        _file.Digest = _digest;
        return this;
    }

    /// <summary>Ends the hash; what was not read of the file for its rows is read now.</summary>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>SHA-256 of the whole file as lower-case hexadecimal.</returns>
    /// <exception cref="MalformedFileException">The file has become shorter since it was opened.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public string FinishSha256(CancellationToken cancellation) => _digest.Finish(cancellation);

    /// <inheritdoc/>
    public void Dispose()
    {
        _mosaic.Dispose();
        _digest.Dispose();
        _file.Dispose();
    }
}
