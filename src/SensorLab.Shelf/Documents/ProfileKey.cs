using System.Buffers;
using System.Numerics;
using System.Runtime.Intrinsics;
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

    // Thirty-two signs at once where no text among them holds a backslash, else sign by sign.
    private static int Gather(ReadOnlySpan<byte> signs, Span<byte> gathered, ref Place place)
    {
        int filled = 0;
        for (int i = 0; i < signs.Length;)
        {
            if (place != Place.Escaped && signs.Length - i >= Vector256<byte>.Count && Vector256.Create(signs[i..]) is var block && !Vector256.EqualsAny(block, Vector256.Create(Backslash)))
            {
                filled += Gather(signs.Slice(i, Vector256<byte>.Count), block, gathered[filled..], ref place);
                i += Vector256<byte>.Count;
                continue;
            }

            byte sign = signs[i++];
            if (place == Place.Outside && IsBlank(sign))
            {
                continue;
            }

            place = (place, sign) switch
            {
                (Place.Outside, Quote) => Place.InText,
                (Place.InText, Quote) => Place.Outside,
                (Place.InText, Backslash) => Place.Escaped,
                (Place.Escaped, _) => Place.InText,
                _ => place,
            };
            gathered[filled++] = sign;
        }

        return filled;
    }

    private static int Gather(ReadOnlySpan<byte> signs, Vector256<byte> block, Span<byte> gathered, ref Place place)
    {
        // A bit is set from a text's first quotation mark to the sign before its last.
        uint texts = Vector256.Equals(block, Vector256.Create(Quote)).ExtractMostSignificantBits();
        for (int step = 1; step < Vector256<byte>.Count; step *= 2)
        {
            texts ^= texts << step;
        }

        texts = place == Place.InText ? ~texts : texts;
        place = (texts >> (Vector256<byte>.Count - 1)) == 0 ? Place.Outside : Place.InText;
        Vector256<byte> blanks = Vector256.Equals(block, Vector256.Create((byte)' ')) | Vector256.Equals(block, Vector256.Create((byte)'\n')) | Vector256.Equals(block, Vector256.Create((byte)'\r')) | Vector256.Equals(block, Vector256.Create((byte)'\t'));
        uint dropped = blanks.ExtractMostSignificantBits() & ~texts;
        int filled = 0;
        for (int from = 0; from < signs.Length;)
        {
            int run = Math.Min(BitOperations.TrailingZeroCount(dropped >> from), signs.Length - from);
            signs.Slice(from, run).CopyTo(gathered[filled..]);
            filled += run;
            from += run;
            from += from < signs.Length ? BitOperations.TrailingZeroCount(~(dropped >> from)) : 0;
        }

        return filled;
    }

    private static bool IsBlank(byte sign) => sign is (byte)' ' or (byte)'\n' or (byte)'\r' or (byte)'\t';

    private enum Place
    {
        Outside,
        InText,
        Escaped,
    }
}
