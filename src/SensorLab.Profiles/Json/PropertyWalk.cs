using System.Text;
using System.Text.Json;

namespace SensorLab.Profiles.Json;

/// <summary>Goes through an object's properties, which documents of ours have in one order: the next known one is mostly the one that comes.</summary>
/// <param name="names">The known names in UTF-8, 64 at most, in the document's order.</param>
internal ref struct PropertyWalk(byte[][] names)
{
    private ulong _seen;
    private int _next;

    /// <summary>Names in UTF-8.</summary>
    public static byte[][] NamesOf(params string[] names) => [.. names.Select(Encoding.UTF8.GetBytes)];

    /// <summary>Goes to the value of the next property.</summary>
    /// <param name="reader">At the object's start, or at the end of the value before.</param>
    /// <returns>The property's place among the names; -1 at the object's end.</returns>
    /// <exception cref="JsonException">A name is not known, or there twice.</exception>
    public int Next(ref Utf8JsonReader reader)
    {
        reader.Read();
        if (reader.TokenType == JsonTokenType.EndObject)
        {
            return -1;
        }

        for (int tried = 0; tried < names.Length; tried++)
        {
            int at = _next;
            _next = at + 1 < names.Length ? at + 1 : 0;
            if (reader.ValueTextEquals(names[at]))
            {
                ulong bit = 1UL << at;
                if ((_seen & bit) != 0)
                {
                    break;
                }

                _seen |= bit;
                reader.Read();
                return at;
            }
        }

        throw new JsonException();
    }

    /// <summary>Requires that the first properties were all there.</summary>
    /// <param name="places">Their places, a bit each.</param>
    /// <exception cref="JsonException">One was not.</exception>
    public readonly void Require(ulong places)
    {
        if ((_seen & places) != places)
        {
            throw new JsonException();
        }
    }
}
