using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace SensorLab.Files;

/// <summary>One limit of a schema on one value.</summary>
/// <param name="Fault">What is wrong with a value; null where nothing is.</param>
/// <param name="Holds">Whether a value as a reader comes by it is within the limit; null where that is not known.</param>
internal sealed record SchemaLimit(Func<SchemaValue, string?> Fault, SchemaLimit.OnToken Holds)
{
    /// <summary>A limit on a value as a reader comes by it.</summary>
    public delegate bool? OnToken(in SchemaToken value);

    /// <summary>The least number that may stand here, where that is all that the limit says.</summary>
    public double? Least { get; private init; }

    /// <summary>The greatest number that may stand here, where that is all that the limit says.</summary>
    public double? Greatest { get; private init; }

    /// <summary>The kinds that may stand here, where that is all that the limit says.</summary>
    public IReadOnlyList<JsonValueKind>? Kinds { get; private init; }

    public static SchemaLimit OfType(string[] types)
    {
        JsonValueKind[] kinds = [.. types.SelectMany(KindsOf)];
        bool isWhole = types.Contains("integer") && !types.Contains("number");
        string reason = $"is no {string.Join(" or ", types)}";
        return new SchemaLimit(value => IsOf(value.Kind, value.Number) ? null : reason, (in value) => IsOf(value.Kind, value.Number)) { Kinds = isWhole ? null : kinds };

        bool IsOf(JsonValueKind kind, double number) => kinds.AsSpan().Contains(kind) && (!isWhole || kind != JsonValueKind.Number || double.IsInteger(number));
    }

    public static SchemaLimit OneOf(IReadOnlyList<JsonElement> values)
    {
        string known = string.Join(", ", values.Select(v => v.GetRawText()));
        string reason = $"is not {(values.Count == 1 ? known : $"one of {known}")}";
        byte[][] plain = [.. values.Select(v => SchemaValue.Of(v).PlainText.ToArray()).Where(text => text.Length > 0)];
        SchemaValue[] all = [.. values.Select(SchemaValue.Of)];
        double[] numbers = [.. all.Where(v => v.Kind == JsonValueKind.Number).Select(v => v.Number)];
        byte[][] raw = [.. values.Where(v => v.ValueKind == JsonValueKind.Number).Select(v => JsonMarshal.GetRawUtf8Value(v).ToArray())];
        return new SchemaLimit(
            value => IsIn(plain, value.PlainText) || IsOne(value) ? null : reason,
            (in value) => value.Kind switch
            {
                JsonValueKind.String when value.Text is null && value.Raw.Length > 0 => IsIn(plain, value.Raw),

                // Other digits may say the same number.
                JsonValueKind.Number when !numbers.Contains(value.Number) => false,
                JsonValueKind.Number when IsIn(raw, value.Raw) => true,
                _ => null,
            });

        bool IsOne(SchemaValue value)
        {
            foreach (SchemaValue one in all)
            {
                // Digits are compared where the doubles do not tell already.
                if (one.Kind == value.Kind && one.Number == value.Number && JsonElement.DeepEquals(one.Element, value.Element))
                {
                    return true;
                }
            }

            return false;
        }

        static bool IsIn(byte[][] known, ReadOnlySpan<byte> text)
        {
            foreach (byte[] one in known)
            {
                if (text.SequenceEqual(one))
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>A number that is the limit or more, or more than it.</summary>
    public static SchemaLimit AtLeast(double limit, bool isIncluded) => Range(isIncluded ? limit : Math.BitIncrement(limit), double.PositiveInfinity, Reason(isIncluded ? "is below {0}" : "is not above {0}", limit));

    /// <summary>A number that is the limit or less, or less than it.</summary>
    public static SchemaLimit AtMost(double limit, bool isIncluded) => Range(double.NegativeInfinity, isIncluded ? limit : Math.BitDecrement(limit), Reason(isIncluded ? "is above {0}" : "is not below {0}", limit));

    private static SchemaLimit Range(double least, double greatest, string words)
    {
        return new(value => IsIn(value.Kind, value.Number) ? null : words, (in value) => IsIn(value.Kind, value.Number)) { Least = least, Greatest = greatest };

        bool IsIn(JsonValueKind kind, double number) => kind != JsonValueKind.Number || (number >= least && number <= greatest);
    }

    public static SchemaLimit Text(Func<int, int, bool> holds, int limit, string reason)
    {
        string words = Reason(reason, limit);
        return new(
            value => value.Kind != JsonValueKind.String || holds(value.PlainText is { IsEmpty: false } plain ? plain.Length : value.Element.GetString()!.Length, limit) ? null : words,
            (in value) => value.Kind != JsonValueKind.String || holds(value.TextLength, limit));
    }

    public static SchemaLimit Matching(Regex pattern) => new(
        value => value.Kind != JsonValueKind.String || pattern.IsMatch(value.Element.GetString()!) ? null : "is not of the form that it must have",
        (in value) => value.Kind != JsonValueKind.String || pattern.IsMatch(value.Text ?? Encoding.ASCII.GetString(value.Raw)));

    public static SchemaLimit Count(JsonValueKind kind, Func<int, int, bool> holds, int limit, string reason)
    {
        string words = Reason(reason, limit);
        return new(
            value => value.Kind != kind || holds(kind == JsonValueKind.Array ? value.Element.GetArrayLength() : value.Element.GetPropertyCount(), limit) ? null : words,
            (in value) => value.Kind != kind || holds(value.Count, limit));
    }

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
