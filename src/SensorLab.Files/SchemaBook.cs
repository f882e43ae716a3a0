using System.Text.Json;
using System.Text.RegularExpressions;

namespace SensorLab.Files;

/// <summary>Turns a schema's text into rules; a rule that is referred to is read once.</summary>
internal sealed class SchemaBook
{
    private const string Definitions = "#/$defs/";

    // Words about a schema, and what is left to the document's types.
    private static readonly HashSet<string> WithoutRule =
        new(StringComparer.Ordinal) { "$schema", "$id", "$defs", "title", "description", "examples", "default", "required", "oneOf", "then", "else" };

    private readonly Dictionary<string, SchemaRule> _named = new(StringComparer.Ordinal);
    private readonly JsonElement _document;

    public SchemaBook(JsonElement document)
    {
        _document = document;
        Root = RuleOf(document);
    }

    /// <summary>The rule of the whole document.</summary>
    public SchemaRule Root { get; }

    private SchemaRule RuleOf(JsonElement schema)
    {
        var rule = new SchemaRule();
        Fill(rule, schema);
        return rule;
    }

    private void Fill(SchemaRule rule, JsonElement schema)
    {
        if (schema.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            rule.IsForbidden = schema.ValueKind == JsonValueKind.False;
            return;
        }

        foreach (JsonProperty keyword in schema.EnumerateObject().Where(k => !WithoutRule.Contains(k.Name)))
        {
            Add(rule, schema, keyword.Name, keyword.Value);
        }
    }

    private void Add(SchemaRule rule, JsonElement schema, string keyword, JsonElement value)
    {
        switch (keyword)
        {
            case "$ref":
                rule.Also.Add(Referred(value.GetString()!));
                break;
            case "allOf":
                rule.Also.AddRange(value.EnumerateArray().Select(RuleOf));
                break;
            case "anyOf":
                rule.AnyOf.AddRange(value.EnumerateArray().Select(RuleOf));
                break;
            case "if":
                rule.Conditions.Add((RuleOf(value), Branch(schema, "then"), Branch(schema, "else")));
                break;
            case "properties":
                foreach (JsonProperty property in value.EnumerateObject())
                {
                    rule.Properties.Add(property.Name, RuleOf(property.Value));
                }

                break;
            case "items":
                rule.Items = RuleOf(value);
                break;
            case "additionalProperties":
                rule.FurtherProperties = RuleOf(value);
                break;
            case "propertyNames":
                rule.PropertyNames = RuleOf(value);
                break;
            default:
                rule.Limits.Add(LimitOf(keyword, value));
                break;
        }
    }

    private SchemaRule? Branch(JsonElement schema, string keyword) => schema.TryGetProperty(keyword, out JsonElement branch) ? RuleOf(branch) : null;

    private SchemaRule Referred(string reference)
    {
        string name = reference.StartsWith(Definitions, StringComparison.Ordinal)
            ? reference[Definitions.Length..]
            : throw new ArgumentException($"{reference} is no reference inside the schema.");
        if (!_named.TryGetValue(name, out SchemaRule? rule))
        {
            // Named before it is filled: a definition may refer to itself.
            _named[name] = rule = new SchemaRule();
            Fill(rule, _document.GetProperty("$defs").GetProperty(name));
        }

        return rule;
    }

    private static SchemaLimit LimitOf(string keyword, JsonElement value) => keyword switch
    {
        "type" => SchemaLimit.OfType(value.ValueKind == JsonValueKind.Array ? [.. value.EnumerateArray().Select(t => t.GetString()!)] : [value.GetString()!]),
        "enum" => SchemaLimit.OneOf([.. value.EnumerateArray().Select(v => v.Clone())]),
        "const" => SchemaLimit.OneOf([value.Clone()]),
        "minimum" => SchemaLimit.AtLeast(value.GetDouble(), isIncluded: true),
        "maximum" => SchemaLimit.AtMost(value.GetDouble(), isIncluded: true),
        "exclusiveMinimum" => SchemaLimit.AtLeast(value.GetDouble(), isIncluded: false),
        "exclusiveMaximum" => SchemaLimit.AtMost(value.GetDouble(), isIncluded: false),
        "minLength" => SchemaLimit.Text((length, limit) => length >= limit, value.GetInt32(), "is shorter than {0} characters"),
        "maxLength" => SchemaLimit.Text((length, limit) => length <= limit, value.GetInt32(), "is longer than {0} characters"),
        "pattern" => SchemaLimit.Matching(new Regex(value.GetString()!, RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)),
        "minItems" => SchemaLimit.Count(JsonValueKind.Array, (count, limit) => count >= limit, value.GetInt32(), "has fewer than {0} entries"),
        "maxItems" => SchemaLimit.Count(JsonValueKind.Array, (count, limit) => count <= limit, value.GetInt32(), "has more than {0} entries"),
        "minProperties" => SchemaLimit.Count(JsonValueKind.Object, (count, limit) => count >= limit, value.GetInt32(), "has fewer than {0} entries"),
        "maxProperties" => SchemaLimit.Count(JsonValueKind.Object, (count, limit) => count <= limit, value.GetInt32(), "has more than {0} entries"),
        _ => throw new ArgumentException($"The schema's keyword {keyword} is not known here."),
    };
}
