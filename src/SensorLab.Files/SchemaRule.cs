using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;

namespace SensorLab.Files;

/// <summary>What a schema says of one value and of all within it.</summary>
internal sealed class SchemaRule
{
    private Dictionary<byte[], SchemaRule>? _byBytes;

    /// <summary>Whether no value may stand here.</summary>
    public bool IsForbidden { get; set; }

    /// <summary>Limits on the value itself.</summary>
    public List<SchemaLimit> Limits { get; } = [];

    /// <summary>Rules that hold besides.</summary>
    public List<SchemaRule> Also { get; } = [];

    /// <summary>Rules of which one must hold; empty where there are none.</summary>
    public List<SchemaRule> AnyOf { get; } = [];

    /// <summary>Rules that hold where another does, or where it does not.</summary>
    public List<(SchemaRule If, SchemaRule? Then, SchemaRule? Else)> Conditions { get; } = [];

    /// <summary>The rules of an object's properties.</summary>
    public Dictionary<string, SchemaRule> Properties { get; } = new(StringComparer.Ordinal);

    /// <summary>The rule of properties that are not named; null where they are free.</summary>
    public SchemaRule? FurtherProperties { get; set; }

    /// <summary>The rule of properties' names; null where they are free.</summary>
    public SchemaRule? PropertyNames { get; set; }

    /// <summary>The rule of a list's entries; null where they are free.</summary>
    public SchemaRule? Items { get; set; }

    /// <summary>The first fault of a value, in document order; a null has none.</summary>
    /// <returns>The fault, its path from this value on: nothing is made of a sound value.</returns>
    public DocumentFault? FirstFault(JsonElement value) => FirstFault(value, value.ValueKind == JsonValueKind.Number ? value.GetDouble() : 0);

    // A number is read once, however many rules and limits ask for it.
    private DocumentFault? FirstFault(JsonElement value, double number)
    {
        if (value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        if (IsForbidden)
        {
            return Here("may not stand here");
        }

        if (value.ValueKind == JsonValueKind.String && !IsText(value))
        {
            return Here("is no text: it holds half of a sign");
        }

        return value.ValueKind == JsonValueKind.Number && !double.IsFinite(number)
            ? Here("is not a finite number")
            : OwnFault(value, number) ?? RuleFault(value, number) ?? InnerFault(value);
    }

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

    private static DocumentFault Here(string reason) => new(string.Empty, reason);

    private DocumentFault? OwnFault(JsonElement value, double number)
    {
        foreach (SchemaLimit limit in Limits)
        {
            if (limit.Fault(value, number) is { } reason)
            {
                return Here(reason);
            }
        }

        DocumentFault? last = null;
        foreach (SchemaRule rule in AnyOf)
        {
            last = rule.FirstFault(value, number);
            if (last is null)
            {
                return null;
            }
        }

        return last;
    }

    private DocumentFault? RuleFault(JsonElement value, double number)
    {
        foreach (SchemaRule rule in Also)
        {
            if (rule.FirstFault(value, number) is { } fault)
            {
                return fault;
            }
        }

        foreach ((SchemaRule condition, SchemaRule? then, SchemaRule? otherwise) in Conditions)
        {
            SchemaRule? rule = condition.FirstFault(value, number) is null ? then : otherwise;
            if (rule?.FirstFault(value, number) is { } fault)
            {
                return fault;
            }
        }

        return null;
    }

    private DocumentFault? InnerFault(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Array when Items is not null => ItemFault(Items, value),
        JsonValueKind.Object when Properties.Count > 0 || FurtherProperties is not null || PropertyNames is not null => PropertyFault(value),
        _ => null,
    };

    private static DocumentFault? ItemFault(SchemaRule rule, JsonElement list)
    {
        int index = 0;
        foreach (JsonElement item in list.EnumerateArray())
        {
            if (rule.FirstFault(item) is { } fault)
            {
                return Within(string.Create(CultureInfo.InvariantCulture, $"[{index}]"), fault);
            }

            index++;
        }

        return null;
    }

    private DocumentFault? PropertyFault(JsonElement item)
    {
        foreach (JsonProperty property in item.EnumerateObject())
        {
            if (PropertyNames?.FirstFault(TextElement(property.Name)) is { } ofName)
            {
                return Here($"has the entry \"{property.Name}\", which {ofName.Reason}");
            }

            SchemaRule? rule = RuleOf(property) ?? FurtherProperties;
            if (rule?.FirstFault(property.Value) is { } fault)
            {
                return Within(property.Name, fault);
            }
        }

        return null;
    }

    // By its bytes, which are there; a name that is escaped in the document is spelled out first.
    private SchemaRule? RuleOf(JsonProperty property)
    {
        // Two threads may make it at once, the same.
        _byBytes ??= Properties.ToDictionary(p => Encoding.UTF8.GetBytes(p.Key), p => p.Value, Utf8Names.Instance);
        ReadOnlySpan<byte> name = JsonMarshal.GetRawUtf8PropertyName(property);
        return name.Contains((byte)'\\') ? Properties.GetValueOrDefault(property.Name)
            : _byBytes.GetAlternateLookup<ReadOnlySpan<byte>>().TryGetValue(name, out SchemaRule? rule) ? rule : null;
    }

    private static JsonElement TextElement(string text) => JsonElement.Parse($"\"{JsonEncodedText.Encode(text)}\"");

    private static DocumentFault Within(string place, DocumentFault inner) => inner with
    {
        Path = inner.Path.Length == 0 || inner.Path[0] == '[' ? place + inner.Path : $"{place}.{inner.Path}",
    };
}
