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

    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>The key of a document.</summary>
    /// <param name="document">Sound JSON in UTF-8.</param>
    /// <returns>64 hexadecimal digits of small letters.</returns>
    public static string Of(ReadOnlySpan<byte> document)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        ReadOnlySpan<byte> rest = document.StartsWith(ByteOrderMark) ? document[ByteOrderMark.Length..] : document;
        byte[] gathered = ArrayPool<byte>.Shared.Rent(Portion);
        Place place = Place.Outside;
        while (rest.Length > 0)
        {
            ReadOnlySpan<byte> portion = rest[..Math.Min(rest.Length, Portion)];
            hash.AppendData(gathered, 0, Gather(portion, gathered, ref place));
            rest = rest[portion.Length..];
        }

        ArrayPool<byte>.Shared.Return(gathered);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    // Sign by sign: texts are short, and a search for each one's end takes several times as long as the hash.
    private static int Gather(ReadOnlySpan<byte> signs, Span<byte> gathered, ref Place place)
    {
        int filled = 0;
        foreach (byte sign in signs)
        {
            switch (place)
            {
                case Place.Outside:
                    if (sign is (byte)' ' or (byte)'\n' or (byte)'\r' or (byte)'\t')
                    {
                        continue;
                    }

                    place = sign == Quote ? Place.InText : Place.Outside;
                    break;
                case Place.InText:
                    place = sign switch { Quote => Place.Outside, Backslash => Place.Escaped, _ => Place.InText };
                    break;
                default:
                    place = Place.InText;
                    break;
            }

            gathered[filled++] = sign;
        }

        return filled;
    }

    private enum Place
    {
        Outside,
        InText,
        Escaped,
    }
}
