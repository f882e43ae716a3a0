using System.Text;
using System.Text.Json;

namespace SensorLab.Files;

/// <summary>A value of a document as the reader comes by it.</summary>
/// <param name="kind">Its kind.</param>
/// <param name="raw">Its signs, a text's without the quotation marks; none of a list or an object.</param>
internal readonly ref struct SchemaToken(JsonValueKind kind, ReadOnlySpan<byte> raw)
{
    /// <summary>Its kind.</summary>
    public JsonValueKind Kind { get; } = kind;

    /// <summary>Its signs, a text's without the quotation marks; none of a list or an object.</summary>
    public ReadOnlySpan<byte> Raw { get; } = raw;

    /// <summary>Its number; 0 where it is none.</summary>
    public double Number { get; init; }

    /// <summary>A text that is not of plain ASCII; null elsewhere.</summary>
    public string? Text { get; init; }

    /// <summary>Entries of a list or an object.</summary>
    public int Count { get; init; }

    /// <summary>The text's length in UTF-16.</summary>
    public int TextLength => Text?.Length ?? Raw.Length;

    /// <summary>The value that a reader stands at.</summary>
    /// <param name="reader">The reader; on the first token of a list or an object.</param>
    /// <exception cref="InvalidOperationException">A text holds half of a sign.</exception>
    public static SchemaToken Of(ref Utf8JsonReader reader) => reader.TokenType switch
    {
        JsonTokenType.String or JsonTokenType.PropertyName => new SchemaToken(JsonValueKind.String, reader.ValueSpan)
        {
            Text = reader.ValueIsEscaped || !Ascii.IsValid(reader.ValueSpan) ? reader.GetString() : null,
        },
        JsonTokenType.Number => new SchemaToken(JsonValueKind.Number, reader.ValueSpan) { Number = reader.GetDouble() },
        JsonTokenType.True => new SchemaToken(JsonValueKind.True, []),
        JsonTokenType.False => new SchemaToken(JsonValueKind.False, []),
        JsonTokenType.StartArray => new SchemaToken(JsonValueKind.Array, []),
        _ => new SchemaToken(JsonValueKind.Object, []),
    };
}
