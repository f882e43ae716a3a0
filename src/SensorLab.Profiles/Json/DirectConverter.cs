using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Profiles.Json;

/// <summary>
/// Reads what a document holds by the thousand, with nothing in between. It takes only what it is sure of: anything else, as a
/// property of a later version or a value of the wrong kind, ends in an exception, and the document is read by its metadata,
/// which decides and knows what to say.
/// </summary>
/// <typeparam name="T">What is read.</typeparam>
internal abstract class DirectConverter<T> : JsonConverter<T>
{
    public sealed override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => throw new NotSupportedException();

    /// <summary>Requires a kind of token.</summary>
    protected static void Require(ref Utf8JsonReader reader, JsonTokenType token)
    {
        if (reader.TokenType != token)
        {
            throw new JsonException();
        }
    }

    /// <summary>A number, or null.</summary>
    protected static double? NumberOrNull(ref Utf8JsonReader reader) => reader.TokenType == JsonTokenType.Null ? null : Number(ref reader);

    /// <summary>A number.</summary>
    protected static double Number(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.Number);
        return reader.GetDouble();
    }

    /// <summary>A whole number, or null.</summary>
    protected static int? WholeOrNull(ref Utf8JsonReader reader) => reader.TokenType == JsonTokenType.Null ? null : Whole(ref reader);

    /// <summary>A whole number.</summary>
    protected static int Whole(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.Number);
        return reader.GetInt32();
    }

    /// <summary>A whole number of any size.</summary>
    protected static long Count(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.Number);
        return reader.GetInt64();
    }

    /// <summary>A text.</summary>
    protected static string Text(ref Utf8JsonReader reader)
    {
        Require(ref reader, JsonTokenType.String);
        return reader.GetString()!;
    }

    /// <summary>A text that is one of few.</summary>
    /// <param name="reader">At the text.</param>
    /// <param name="known">The few in UTF-8, each with its text.</param>
    protected static string Word(ref Utf8JsonReader reader, (byte[] Utf8, string Text)[] known)
    {
        Require(ref reader, JsonTokenType.String);
        foreach ((byte[] utf8, string text) in known)
        {
            if (reader.ValueTextEquals(utf8))
            {
                return text;
            }
        }

        return reader.GetString()!;
    }
}
