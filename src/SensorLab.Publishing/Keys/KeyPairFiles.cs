using System.Text;

namespace SensorLab.Publishing.Keys;

/// <summary>Writes a new key pair: the private half for its owner alone, the public half beside it.</summary>
public static class KeyPairFiles
{
    private const string Ending = ".pem";

    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private const UnixFileMode Everyone = OwnerOnly | UnixFileMode.GroupRead | UnixFileMode.OtherRead;

    /// <summary>Where the public half goes: <c>NAME.pub.pem</c> beside <c>NAME.pem</c>.</summary>
    /// <param name="privatePath">The private half's file.</param>
    public static string PublicPathOf(string privatePath) =>
        (privatePath.EndsWith(Ending, StringComparison.OrdinalIgnoreCase) ? privatePath[..^Ending.Length] : privatePath) + ".pub" + Ending;

    /// <summary>Makes a key pair and writes both halves, or neither.</summary>
    /// <param name="privatePath">The private half's file: PKCS #8 as PEM, created with mode 0600 on Unix; on Windows it has its folder's rights.</param>
    /// <param name="cancellation">Cancels before the first file is in place.</param>
    /// <returns>The public half.</returns>
    /// <exception cref="IOException">One of both files is there already, or cannot be written: nothing is replaced.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing is left.</exception>
    public static PublicKey Create(string privatePath, CancellationToken cancellation = default)
    {
        string publicPath = PublicPathOf(privatePath);
        RequireFree(privatePath);
        RequireFree(publicPath);
        using var key = SigningKey.Create();
        Place(privatePath, key.PrivatePem(), OwnerOnly, cancellation);
        try
        {
            Place(publicPath, key.PublicPem(), Everyone, CancellationToken.None);
        }
        catch
        {
            File.Delete(privatePath);
            throw;
        }

        return key.Public;
    }

    private static void RequireFree(string path)
    {
        if (Path.Exists(path) || new FileInfo(path).LinkTarget is not null)
        {
            throw new IOException($"{path} is there already, and a key is never overwritten: choose another name.");
        }
    }

    // Written beside its place and then moved without overwriting: whole from the first moment, and whoever came first stays.
    private static void Place(string path, string pem, UnixFileMode mode, CancellationToken cancellation)
    {
        string temporary = Path.Combine(Path.GetDirectoryName(Path.GetFullPath(path))!, $".{Path.GetFileName(path)}.{Path.GetRandomFileName()}.tmp");
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = mode;
        }

        try
        {
            using (var stream = new FileStream(temporary, options))
            {
                stream.Write(Encoding.ASCII.GetBytes(pem));
                stream.Flush(flushToDisk: true);
            }

            cancellation.ThrowIfCancellationRequested();
            File.Move(temporary, path, overwrite: false);
        }
        finally
        {
            File.Delete(temporary);
        }
    }
}
