using System.Text.Json;
using System.Text.Json.Nodes;

namespace SensorLab.Simulation.Bodies;

/// <summary>What a body file may leave out, put in: the LM-2's values, and those of a part of which it names some.</summary>
/// <remarks>The generated reader sets every property, and one that the file lacks to 0 or null: so the file is made whole before it is read.</remarks>
internal static class BodyDefaults
{
    /// <summary>Completes a document in place; what it holds stays, right or wrong.</summary>
    /// <param name="body">The document.</param>
    public static void Complete(JsonObject body)
    {
        AddMissing(body, JsonSerializer.SerializeToNode(new VirtualBody(), BodyJson.Default.VirtualBody)!.AsObject());
        foreach (JsonObject look in Objects(body, "furtherLooks"))
        {
            AddMissing(look, JsonSerializer.SerializeToNode(new PreviewLook(), BodyJson.Default.PreviewLook)!.AsObject());
        }

        foreach (JsonObject setting in Objects(body, "isoSettings"))
        {
            // A setting's other properties are required, or null by themselves.
            setting.TryAdd("digitalFactor", VirtualIso.NoDigitalFactor);
        }
    }

    private static IEnumerable<JsonObject> Objects(JsonObject body, string list) => (body[list] as JsonArray ?? []).OfType<JsonObject>();

    private static void AddMissing(JsonObject document, JsonObject defaults)
    {
        foreach ((string name, JsonNode? value) in defaults)
        {
            if (!document.TryGetPropertyValue(name, out JsonNode? held))
            {
                document.Add(name, value?.DeepClone());
            }
            else if (held is JsonObject part && value is JsonObject whole)
            {
                AddMissing(part, whole);
            }
        }
    }
}
