using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;

namespace SensorLab.Files;

/// <summary>A value of a document, its kind and its number read once, however many limits ask for them.</summary>
/// <param name="Element">The value.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Number">Its number; 0 where it is none.</param>
internal readonly record struct SchemaValue(JsonElement Element, JsonValueKind Kind, double Number)
{
    /// <summary>A value.</summary>
    public static SchemaValue Of(JsonElement element)
    {
        JsonValueKind kind = element.ValueKind;
        return new SchemaValue(element, kind, kind == JsonValueKind.Number ? element.GetDouble() : 0);
    }

    /// <summary>Its text between the quotation marks, where it is one of ASCII without an escaped sign; else empty.</summary>
    public ReadOnlySpan<byte> PlainText
    {
        get
        {
            if (Kind != JsonValueKind.String)
            {
                return [];
            }

            ReadOnlySpan<byte> inner = JsonMarshal.GetRawUtf8Value(Element)[1..^1];
            return Ascii.IsValid(inner) && !inner.Contains((byte)'\\') ? inner : [];
        }
    }

    /// <summary>Why it is no value at all, whatever the schema says; null where it is one.</summary>
    public string? Fault() => Kind switch
    {
        JsonValueKind.String when PlainText.IsEmpty && !IsText(Element) => "is no text: it holds half of a sign",
        JsonValueKind.Number when !double.IsFinite(Number) => "is not a finite number",
        _ => null,
    };

    private static bool IsText(JsonElement value)
    {
        try
        {
            return value.GetString() is not null;
        }
        catch (InvalidOperationException)
        {
            return false;
        }
    }
}
