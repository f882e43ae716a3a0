using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace SensorLab.Fuzzing.Documents;

/// <summary>The texts of a JSON document, entries of a list taken as one field.</summary>
internal static partial class TextFields
{
    /// <summary>The fields, as paths without the lists' indices.</summary>
    /// <param name="document">The document.</param>
    public static IReadOnlyList<string> Of(string document) => [.. Leaves(JsonNode.Parse(document)!).Select(FieldOf).Distinct(StringComparer.Ordinal)];

    /// <summary>The document with other texts.</summary>
    /// <param name="document">The document.</param>
    /// <param name="textOf">The text of a field; null where it keeps its own.</param>
    public static string Filled(string document, Func<string, string?> textOf)
    {
        JsonNode root = JsonNode.Parse(document)!;
        foreach (JsonNode leaf in Leaves(root).ToArray())
        {
            if (textOf(FieldOf(leaf)) is { } text)
            {
                leaf.ReplaceWith(JsonValue.Create(text));
            }
        }

        return root.ToJsonString();
    }

    private static IEnumerable<JsonNode> Leaves(JsonNode? node) => node switch
    {
        JsonObject item => item.SelectMany(property => Leaves(property.Value)),
        JsonArray list => list.SelectMany(Leaves),
        JsonValue value when value.GetValueKind() == JsonValueKind.String => [value],
        _ => [],
    };

    private static string FieldOf(JsonNode leaf) => Index().Replace(leaf.GetPath(), "[]");

    [GeneratedRegex(@"\[\d+\]")]
    private static partial Regex Index();
}
