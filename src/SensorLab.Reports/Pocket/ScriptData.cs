using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Files;

namespace SensorLab.Reports.Pocket;

/// <summary>JSON that stands inside a script element.</summary>
internal static class ScriptData
{
    // Escapes <, >, & and quotes, which alone could end the element.
    private static readonly JsonSerializerOptions Format = new() { Encoder = JavaScriptEncoder.Default };

    /// <summary>The same document on few bytes; its texts on one line, without what would steer a page or the direction of reading.</summary>
    /// <param name="json">A JSON document.</param>
    public static string Of(string json) => Cleaned(JsonNode.Parse(json)!)!.ToJsonString(Format);

    private static JsonNode? Cleaned(JsonNode? node) => node switch
    {
        JsonObject held => new JsonObject(held.Select(entry => KeyValuePair.Create(ForeignText.OneLine(entry.Key), Cleaned(entry.Value)))),
        JsonArray items => new JsonArray([.. items.Select(Cleaned)]),
        JsonValue value when value.GetValueKind() == JsonValueKind.String => JsonValue.Create(ForeignText.OneLine(value.GetValue<string>())),
        null => null,
        _ => node.DeepClone(),
    };
}
