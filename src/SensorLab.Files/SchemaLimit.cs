using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace SensorLab.Files;

/// <summary>One limit of a schema on one value.</summary>
/// <param name="Fault">What is wrong with a value; null where nothing is.</param>
internal sealed record SchemaLimit(Func<SchemaValue, string?> Fault)
{
    public static SchemaLimit OfType(string[] types)
    {
        JsonValueKind[] kinds = [.. types.SelectMany(KindsOf)];
        bool isWhole = types.Contains("integer") && !types.Contains("number");
        string reason = $"is no {string.Join(" or ", types)}";
        return new SchemaLimit(value => kinds.AsSpan().Contains(value.Kind) && (!isWhole || value.Kind != JsonValueKind.Number || double.IsInteger(value.Number)) ? null : reason);
    }

    public static SchemaLimit OneOf(IReadOnlyList<JsonElement> values)
    {
        string known = string.Join(", ", values.Select(v => v.GetRawText()));
        string reason = $"is not {(values.Count == 1 ? known : $"one of {known}")}";
        byte[][] plain = [.. values.Select(v => SchemaValue.Of(v).PlainText.ToArray()).Where(text => text.Length > 0)];
        return new SchemaLimit(value => IsPlain(value.PlainText) || values.Any(v => JsonElement.DeepEquals(v, value.Element)) ? null : reason);

        bool IsPlain(ReadOnlySpan<byte> text)
        {
            foreach (byte[] one in plain)
            {
                if (text.SequenceEqual(one))
                {
                    return true;
                }
            }

            return false;
        }
    }

    public static SchemaLimit Number(Func<double, double, bool> holds, double limit, string reason) => new(value =>
        value.Kind != JsonValueKind.Number || holds(value.Number, limit) ? null : Reason(reason, limit));

    public static SchemaLimit Text(Func<int, int, bool> holds, int limit, string reason) => new(value =>
        value.Kind != JsonValueKind.String || holds(value.PlainText is { IsEmpty: false } plain ? plain.Length : value.Element.GetString()!.Length, limit) ? null : Reason(reason, limit));

    public static SchemaLimit Matching(Regex pattern) => new(value =>
        value.Kind != JsonValueKind.String || pattern.IsMatch(value.Element.GetString()!) ? null : "is not of the form that it must have");

    public static SchemaLimit Count(JsonValueKind kind, Func<int, int, bool> holds, int limit, string reason) => new(value =>
        value.Kind != kind || holds(kind == JsonValueKind.Array ? value.Element.GetArrayLength() : value.Element.GetPropertyCount(), limit) ? null : Reason(reason, limit));

    private static JsonValueKind[] KindsOf(string type) => type switch
    {
        "object" => [JsonValueKind.Object],
        "array" => [JsonValueKind.Array],
        "string" => [JsonValueKind.String],
        "number" or "integer" => [JsonValueKind.Number],
        "boolean" => [JsonValueKind.True, JsonValueKind.False],
        "null" => [JsonValueKind.Null],
        _ => throw new ArgumentException($"The schema's type {type} is not known here."),
    };

    private static string Reason(string reason, double limit) => string.Format(CultureInfo.InvariantCulture, CompositeFormat.Parse(reason), limit);
}
