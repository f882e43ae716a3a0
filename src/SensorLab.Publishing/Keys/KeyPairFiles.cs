using System.Text;
using SensorLab.Files;

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
        using var key = SigningKey.Create();
        new WholeOutput()
            .WithNewFile(privatePath, stream => stream.Write(Encoding.ASCII.GetBytes(key.PrivatePem())), OwnerOnly)
            .WithNewFile(publicPath, stream => stream.Write(Encoding.ASCII.GetBytes(key.PublicPem())), Everyone)
            .PutInPlace(cancellation);
        return key.Public;
    }
}
