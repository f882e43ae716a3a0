using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace SensorLab.Publishing.Keys;

/// <summary>The public half of a signing key: a point of the curve P-256.</summary>
/// <remarks>Two keys are equal where their points are.</remarks>
public sealed record PublicKey
{
    /// <summary>Bytes of a coordinate of P-256 (RFC 7518, section 6.2.1.2).</summary>
    internal const int CoordinateBytes = 32;

    private const string Make = "Make a pair with: sensorlab key --out PRIVATE.pem";

    private PublicKey(string x, string y)
    {
        X = x;
        Y = y;
    }

    /// <summary>The coordinate x, base64url (RFC 7518, section 6.2.1.2).</summary>
    public string X { get; }

    /// <summary>The coordinate y, base64url (RFC 7518, section 6.2.1.3).</summary>
    public string Y { get; }

    /// <summary>The key's thumbprint: SHA-256 of its required members, base64url (RFC 7638, section 3).</summary>
    public string Thumbprint => Base64Url.EncodeToString(SHA256.HashData(Encoding.ASCII.GetBytes(Jwk)));

    /// <summary>The key as JSON: the members that RFC 7638 requires, in its order, without spaces.</summary>
    internal string Jwk => $$"""{"crv":"P-256","kty":"EC","x":"{{X}}","y":"{{Y}}"}""";

    /// <summary>Reads a public key.</summary>
    /// <param name="path">A PEM file (RFC 7468) with one SubjectPublicKeyInfo of a P-256 key.</param>
    /// <returns>The key.</returns>
    /// <exception cref="KeyFileException">The file holds something else; the message says what.</exception>
    /// <exception cref="IOException">The file is missing or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The path is a folder, or may not be read.</exception>
    public static PublicKey ReadFile(string path)
    {
        (string label, byte[] bytes) = PemFile.Read(path, Make);
        if (label.EndsWith("PRIVATE KEY", StringComparison.Ordinal))
        {
            throw new KeyFileException($"{path} is a private key; to check a signature takes the public one.", "Name the file that ends in .pub.pem, and keep the private key to yourself.");
        }

        if (label != "PUBLIC KEY")
        {
            throw new KeyFileException($"{path} holds no public key but: {label}.", Make);
        }

        using var key = ECDsa.Create();
        PemFile.Import(path, () => key.ImportSubjectPublicKeyInfo(bytes, out _), key, Make);
        return Of(key);
    }

    /// <summary>The public half of a key.</summary>
    /// <param name="key">A key of P-256.</param>
    internal static PublicKey Of(ECDsa key)
    {
        ECPoint point = key.ExportParameters(includePrivateParameters: false).Q;
        return new PublicKey(Base64Url.EncodeToString(point.X), Base64Url.EncodeToString(point.Y));
    }

    /// <summary>The key of two coordinates; null where they are no point of the curve.</summary>
    /// <param name="x">The coordinate x, base64url.</param>
    /// <param name="y">The coordinate y, base64url.</param>
    internal static PublicKey? FromCoordinates(string x, string y)
    {
        var key = new PublicKey(x, y);
        try
        {
            using ECDsa _ = key.ToVerifier();
            return key;
        }
        catch (Exception e) when (e is CryptographicException or FormatException or ArgumentException)
        {
            return null;
        }
    }

    /// <summary>What verifies signatures of this key; the caller disposes of it.</summary>
    internal ECDsa ToVerifier() => ECDsa.Create(new ECParameters
    {
        Curve = ECCurve.NamedCurves.nistP256,
        Q = new ECPoint { X = Base64Url.DecodeFromChars(X), Y = Base64Url.DecodeFromChars(Y) },
    });
}
