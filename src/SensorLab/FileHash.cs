using System.Security.Cryptography;
using SensorLab.Files;

namespace SensorLab;

/// <summary>The hash by which a profile names a file's content.</summary>
internal static class FileHash
{
    private const int BufferBytes = 1 << 18;

    /// <summary>SHA-256 of a file as lower-case hexadecimal.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static string Sha256(string path, CancellationToken cancellation)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        PlainFile.Require(path);
        using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 1, FileOptions.SequentialScan);
        byte[] buffer = new byte[BufferBytes];
        int read;
        while ((read = stream.Read(buffer)) > 0)
        {
            cancellation.ThrowIfCancellationRequested();
            hash.AppendData(buffer.AsSpan(0, read));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
