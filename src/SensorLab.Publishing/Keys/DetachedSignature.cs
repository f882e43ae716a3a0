using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace SensorLab.Publishing.Keys;

/// <summary>A detached JSON Web Signature in compact form: <c>header..signature</c> (RFC 7515, section 7.1 and appendix F).</summary>
/// <remarks>
/// The header names ES256, the public key (<c>jwk</c>) and its RFC 7638 thumbprint (<c>kid</c>), in this order and without
/// spaces. A signature has one form alone: any other header, encoding or s is refused, so that no byte of it can change.
/// </remarks>
internal static class DetachedSignature
{
    private const int SignatureBytes = 2 * PublicKey.CoordinateBytes;

    // Ours have 330 characters.
    private const int LengthLimit = 1024;

    /// <summary>Signs a payload.</summary>
    /// <param name="payload">The payload, which the signature does not hold.</param>
    /// <param name="key">The key.</param>
    /// <returns>The signature, ASCII.</returns>
    public static byte[] Of(ReadOnlySpan<byte> payload, SigningKey key)
    {
        string header = HeaderOf(key.Public);
        return Encoding.ASCII.GetBytes($"{header}..{Base64Url.EncodeToString(key.Sign(Input(header, payload)))}");
    }

    /// <summary>Checks a signature.</summary>
    /// <param name="signature">The signature.</param>
    /// <param name="payload">The payload.</param>
    /// <returns>The key that it names, null where that cannot be read; and what is wrong, null where nothing is.</returns>
    public static (PublicKey? Key, string? Fault) Check(ReadOnlySpan<byte> signature, ReadOnlySpan<byte> payload)
    {
        string text = Encoding.Latin1.GetString(signature[..Math.Min(signature.Length, LengthLimit + 1)]);
        string[] parts = text.Split('.');
        if (text.Length > LengthLimit || parts.Length != 3 || parts[1].Length > 0)
        {
            return (null, "The signature is no detached JSON Web Signature.");
        }

        if (KeyIn(parts[0]) is not { } key || HeaderOf(key) != parts[0])
        {
            return (null, "The signature's header is not one that SensorLab writes: ES256, the public key and its thumbprint.");
        }

        if (Decoded(parts[2]) is not { Length: SignatureBytes } value || Base64Url.EncodeToString(value) != parts[2] || !EcdsaForm.HasSmallS(value))
        {
            return (key, "The signature's value was changed: it is not in its one form.");
        }

        using ECDsa verifier = key.ToVerifier();
        return verifier.VerifyData(Input(parts[0], payload), value, HashAlgorithmName.SHA256, DSASignatureFormat.IeeeP1363FixedFieldConcatenation)
            ? (key, null)
            : (key, "The signature is not of this manifest: one of both was changed.");
    }

    private static string HeaderOf(PublicKey key) =>
        Base64Url.EncodeToString(Encoding.ASCII.GetBytes($$"""{"alg":"ES256","jwk":{{key.Jwk}},"kid":"{{key.Thumbprint}}"}"""));

    private static byte[] Input(string header, ReadOnlySpan<byte> payload) =>
        Encoding.ASCII.GetBytes($"{header}.{Base64Url.EncodeToString(payload)}");

    private static PublicKey? KeyIn(string header)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(Decoded(header) ?? []);
            JsonElement key = document.RootElement.GetProperty("jwk");
            return PublicKey.FromCoordinates(key.GetProperty("x").GetString() ?? string.Empty, key.GetProperty("y").GetString() ?? string.Empty);
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            return null;
        }
    }

    private static byte[]? Decoded(string text)
    {
        try
        {
            return Base64Url.DecodeFromChars(text);
        }
        catch (FormatException)
        {
            return null;
        }
    }
}
