using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace SensorLab.Files;

/// <summary>One limit of a schema on one value.</summary>
/// <param name="Fault">What is wrong with a value, given with its number where it is one; null where nothing is.</param>
internal sealed record SchemaLimit(Func<JsonElement, double, string?> Fault)
{
    public static SchemaLimit OfType(string[] types) => new((value, number) =>
    {
        foreach (string type in types)
        {
            if (IsOf(type, value, number))
            {
                return null;
            }
        }

        return $"is no {string.Join(" or ", types)}";
    });

    public static SchemaLimit OneOf(IReadOnlyList<JsonElement> values)
    {
        string known = string.Join(", ", values.Select(v => v.GetRawText()));
        return new SchemaLimit((value, _) => values.Any(v => JsonElement.DeepEquals(v, value)) ? null : $"is not {(values.Count == 1 ? known : $"one of {known}")}");
    }

    public static SchemaLimit Number(Func<double, double, bool> holds, double limit, string reason) => new((value, number) =>
        value.ValueKind != JsonValueKind.Number || holds(number, limit) ? null : Reason(reason, limit));

    public static SchemaLimit Text(Func<string, int, bool> holds, int limit, string reason) => new((value, _) =>
        value.ValueKind != JsonValueKind.String || holds(value.GetString()!, limit) ? null : Reason(reason, limit));

    public static SchemaLimit Matching(Regex pattern) => new((value, _) =>
        value.ValueKind != JsonValueKind.String || pattern.IsMatch(value.GetString()!) ? null : "is not of the form that it must have");

    public static SchemaLimit Count(JsonValueKind kind, Func<int, int, bool> holds, int limit, string reason) => new((value, _) =>
        value.ValueKind != kind || holds(kind == JsonValueKind.Array ? value.GetArrayLength() : value.GetPropertyCount(), limit) ? null : Reason(reason, limit));

    private static bool IsOf(string type, JsonElement value, double number) => type switch
    {
        "object" => value.ValueKind == JsonValueKind.Object,
        "array" => value.ValueKind == JsonValueKind.Array,
        "string" => value.ValueKind == JsonValueKind.String,
        "number" => value.ValueKind == JsonValueKind.Number,
        "integer" => value.ValueKind == JsonValueKind.Number && double.IsInteger(number),
        "boolean" => value.ValueKind is JsonValueKind.True or JsonValueKind.False,
        "null" => value.ValueKind == JsonValueKind.Null,
        _ => throw new ArgumentException($"The schema's type {type} is not known here."),
    };

    private static string Reason(string reason, double limit) => string.Format(CultureInfo.InvariantCulture, CompositeFormat.Parse(reason), limit);
}
