using System.Security.Cryptography;

namespace SensorLab.Shelf.Documents;

/// <summary>What a profile is told by: SHA-256 of its document, the white space between JSON's signs left out.</summary>
/// <remarks>A document that a version control system or an editor indented anew, or gave other line ends, is the same profile.</remarks>
internal static class ProfileKey
{
    private const byte Quote = (byte)'"';
    private const byte Backslash = (byte)'\\';

    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>The key of a document.</summary>
    /// <param name="document">Sound JSON in UTF-8.</param>
    /// <returns>64 hexadecimal digits of small letters.</returns>
    public static string Of(ReadOnlySpan<byte> document)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        ReadOnlySpan<byte> rest = document.StartsWith(ByteOrderMark) ? document[ByteOrderMark.Length..] : document;
        while (rest.Length > 0)
        {
            int end = rest.IndexOfAny("\" \n\r\t"u8);
            if (end < 0)
            {
                hash.AppendData(rest);
                break;
            }

            hash.AppendData(rest[..end]);
            rest = rest[end..];
            int length = rest[0] == Quote ? TextLength(rest) : 1;
            if (rest[0] == Quote)
            {
                hash.AppendData(rest[..length]);
            }

            rest = rest[length..];
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static int TextLength(ReadOnlySpan<byte> text)
    {
        int at = 1;
        while (at < text.Length && text[at] != Quote)
        {
            int next = text[at..].IndexOfAny(Quote, Backslash);
            if (next < 0)
            {
                return text.Length;
            }

            at += next + (text[at + next] == Backslash ? 2 : 0);
        }

        return Math.Min(text.Length, at + 1);
    }
}
