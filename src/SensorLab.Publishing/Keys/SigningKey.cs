using System.Security.Cryptography;

namespace SensorLab.Publishing.Keys;

/// <summary>A private key that signs bundles: ES256, ECDSA on P-256 with SHA-256 (RFC 7518, section 3.4).</summary>
public sealed class SigningKey : IDisposable
{
    private const string Make = "Make a signing key with: sensorlab key --out PRIVATE.pem";

    private readonly ECDsa _key;

    private SigningKey(ECDsa source)
    {
        ECParameters parameters = source.ExportParameters(includePrivateParameters: true);
        _key = ECDsa.Create(parameters);
        CryptographicOperations.ZeroMemory(parameters.D);
        Public = PublicKey.Of(_key);
    }

    /// <summary>The public half.</summary>
    public PublicKey Public { get; }

    /// <summary>Makes a key from the system's random numbers.</summary>
    /// <returns>The key; the caller disposes of it.</returns>
    public static SigningKey Create()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        return new SigningKey(key);
    }

    /// <summary>Reads a private key.</summary>
    /// <param name="path">A PEM file (RFC 7468) with one unencrypted PKCS #8 key of P-256.</param>
    /// <returns>The key; the caller disposes of it.</returns>
    /// <exception cref="KeyFileException">The file holds something else; the message says what.</exception>
    /// <exception cref="IOException">The file is missing or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The path is a folder, or may not be read.</exception>
    public static SigningKey ReadFile(string path)
    {
        (string label, byte[] bytes) = PemFile.Read(path, Make);
        if (label != "PRIVATE KEY")
        {
            throw label switch
            {
                "PUBLIC KEY" => new KeyFileException($"{path} is a public key; to sign takes the private one.", "Name the file beside it that does not end in .pub.pem."),
                "ENCRYPTED PRIVATE KEY" => new KeyFileException($"{path} is a private key behind a passphrase, which is not asked for here.", Make),
                _ => new KeyFileException($"{path} holds no private key in PKCS #8 but: {label}.", Make),
            };
        }

        using var key = ECDsa.Create();
        try
        {
            PemFile.Import(path, () => key.ImportPkcs8PrivateKey(bytes, out _), key, Make);
            return new SigningKey(key);
        }
        finally
        {
            CryptographicOperations.ZeroMemory(bytes);
        }
    }

    /// <summary>Whether others than its owner may read a private key's file; never so on Windows, where folders' rights hold.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">The file is missing.</exception>
    public static bool IsReadableByOthers(string path)
    {
        const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.OtherRead | UnixFileMode.GroupWrite | UnixFileMode.OtherWrite;
        return !OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & Others) != 0;
    }

    /// <inheritdoc/>
    public void Dispose() => _key.Dispose();

    /// <summary>The private half as PEM: PKCS #8, unencrypted.</summary>
    internal string PrivatePem() => _key.ExportPkcs8PrivateKeyPem() + "\n";

    /// <summary>The public half as PEM: SubjectPublicKeyInfo.</summary>
    internal string PublicPem() => _key.ExportSubjectPublicKeyInfoPem() + "\n";

    /// <summary>Signs bytes.</summary>
    /// <param name="data">The bytes.</param>
    /// <returns>r and s, 32 bytes each, big end first (RFC 7518, section 3.4); s is the smaller of its two values.</returns>
    internal byte[] Sign(ReadOnlySpan<byte> data) =>
        EcdsaForm.WithSmallS(_key.SignData(data.ToArray(), HashAlgorithmName.SHA256, DSASignatureFormat.IeeeP1363FixedFieldConcatenation));
}
