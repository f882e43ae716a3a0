using System.Security.Cryptography;
using SensorLab.Files;

namespace SensorLab.Publishing.Keys;

/// <summary>Reads a key's file: one PEM block (RFC 7468) and nothing that could be mistaken for another.</summary>
internal static class PemFile
{
    private const int SizeLimitBytes = 64 * 1024;
    private const string Curve = "1.2.840.10045.3.1.7";

    /// <summary>The block's label and bytes.</summary>
    /// <param name="path">The file.</param>
    /// <param name="remedy">What to do where it holds none.</param>
    public static (string Label, byte[] Bytes) Read(string path, string remedy)
    {
        using FileStream file = PlainFile.OpenRead(path);
        byte[] buffer = new byte[SizeLimitBytes + 1];
        int count = file.ReadAtLeast(buffer, buffer.Length, throwOnEndOfStream: false);
        string text = System.Text.Encoding.UTF8.GetString(buffer.AsSpan(0, count));
        CryptographicOperations.ZeroMemory(buffer);
        if (count > SizeLimitBytes || !PemEncoding.TryFind(text, out PemFields fields))
        {
            throw new KeyFileException($"{path} is no key: there is no PEM block in it.", remedy);
        }

        if (PemEncoding.TryFind(text.AsSpan(fields.Location.End.Value), out _))
        {
            throw new KeyFileException($"{path} holds more than one key or certificate.", "Keep one key a file.");
        }

        return (text[fields.Label], Convert.FromBase64String(text[fields.Base64Data]));
    }

    /// <summary>Imports a block, and requires that the key is one of P-256.</summary>
    /// <param name="path">The file.</param>
    /// <param name="import">Imports into <paramref name="key"/>.</param>
    /// <param name="key">The key.</param>
    /// <param name="remedy">What to do where it is another.</param>
    public static void Import(string path, Action import, ECDsa key, string remedy)
    {
        string? curve = null;
        try
        {
            import();
            curve = key.ExportParameters(includePrivateParameters: false).Curve.Oid?.Value;
        }
        catch (CryptographicException e)
        {
            throw new KeyFileException($"{path} is no key for ES256: it is damaged, or a key of another kind (RSA, Ed25519).", remedy, e);
        }

        if (curve != Curve)
        {
            throw new KeyFileException($"{path} is a key of another curve than P-256, which ES256 signs with.", remedy);
        }
    }
}
