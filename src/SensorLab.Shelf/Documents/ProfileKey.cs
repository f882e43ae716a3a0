using System.Buffers;
using System.Security.Cryptography;

namespace SensorLab.Shelf.Documents;

/// <summary>What a profile is told by: SHA-256 of its document, the white space between JSON's signs left out.</summary>
/// <remarks>A document that a version control system or an editor indented anew, or gave other line ends, is the same profile.</remarks>
internal static class ProfileKey
{
    private const byte Quote = (byte)'"';
    private const byte Backslash = (byte)'\\';
    private const int Portion = 64 * 1024;

    private static readonly SearchValues<byte> WhiteSpace = SearchValues.Create(" \n\r\t"u8);
    private static readonly SearchValues<byte> WhiteSpaceOrQuote = SearchValues.Create("\" \n\r\t"u8);

    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>The key of a document.</summary>
    /// <param name="document">Sound JSON in UTF-8.</param>
    /// <returns>64 hexadecimal digits of small letters.</returns>
    public static string Of(ReadOnlySpan<byte> document)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        ReadOnlySpan<byte> rest = document.StartsWith(ByteOrderMark) ? document[ByteOrderMark.Length..] : document;
        byte[] gathered = ArrayPool<byte>.Shared.Rent(Portion);
        int filled = 0;
        while (rest.Length > 0)
        {
            int length = rest.IndexOfAny(WhiteSpaceOrQuote) switch
            {
                0 => rest[0] == Quote ? TextLength(rest) : 1,
                < 0 => rest.Length,
                int before => before,
            };
            if (!WhiteSpace.Contains(rest[0]))
            {
                Gather(rest[..length], gathered, ref filled, hash);
            }

            rest = rest[length..];
        }

        hash.AppendData(gathered, 0, filled);
        ArrayPool<byte>.Shared.Return(gathered);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    // A call of the hash a sign would take longer than the hash.
    private static void Gather(ReadOnlySpan<byte> signs, byte[] gathered, ref int filled, IncrementalHash hash)
    {
        if (filled + signs.Length > gathered.Length)
        {
            hash.AppendData(gathered, 0, filled);
            filled = 0;
        }

        if (signs.Length > gathered.Length)
        {
            hash.AppendData(signs);
            return;
        }

        signs.CopyTo(gathered.AsSpan(filled));
        filled += signs.Length;
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
