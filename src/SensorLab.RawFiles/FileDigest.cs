using System.Buffers;
using System.Security.Cryptography;
using SensorLab.Frames;

namespace SensorLab.RawFiles;

/// <summary>SHA-256 of a file, taken of the bytes that pass by while its image is read, so that they are read once.</summary>
/// <remarks>What the image's reader leaves out, or reads in another order than it is stored, is read for the digest alone.</remarks>
internal sealed class FileDigest : IDisposable
{
    private const int BufferBytes = 1 << 18;

    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly RandomAccessFile _file;
    private long _digested;

    /// <summary>Starts at a file's first byte.</summary>
    /// <param name="file">The file, which stays the caller's.</param>
    public FileDigest(RandomAccessFile file) => _file = file;

    /// <summary>Takes in bytes that were just read.</summary>
    /// <param name="offset">Where they lie in the file.</param>
    /// <param name="bytes">The bytes.</param>
    public void Pass(long offset, ReadOnlySpan<byte> bytes)
    {
        if (offset + bytes.Length <= _digested)
        {
            return;
        }

        ReadUpTo(offset, CancellationToken.None);
        _hash.AppendData(bytes[(int)(_digested - offset)..]);
        _digested = offset + bytes.Length;
    }

    /// <summary>Takes in the rest of the file.</summary>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>The digest of the whole file as lower-case hexadecimal.</returns>
    /// <exception cref="MalformedFileException">The file has become shorter.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public string Finish(CancellationToken cancellation)
    {
        ReadUpTo(_file.Length, cancellation);
        return Convert.ToHexStringLower(_hash.GetHashAndReset());
    }

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private void ReadUpTo(long end, CancellationToken cancellation)
    {
        if (_digested >= end)
        {
            return;
        }

        byte[] buffer = ArrayPool<byte>.Shared.Rent(BufferBytes);
        try
        {
            while (_digested < end)
            {
                cancellation.ThrowIfCancellationRequested();
                Span<byte> piece = buffer.AsSpan(0, (int)Math.Min(buffer.Length, end - _digested));
                _file.ReadAside(_digested, piece);
                _hash.AppendData(piece);
                _digested += piece.Length;
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }
}
