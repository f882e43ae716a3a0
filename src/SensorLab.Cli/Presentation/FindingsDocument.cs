using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of a refusal: <c>{"findings": […]}</c>, each finding as a sensor profile holds it.</summary>
internal sealed record FindingsDocument(IReadOnlyList<Finding> Findings)
{
    /// <summary>Writes the document.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="findings">All findings of the set.</param>
    /// <param name="comparison">What the plan says of the set, under "plan"; null without one.</param>
    public static void Write(TextWriter output, IReadOnlyList<Finding> findings, PlanComparison? comparison = null)
    {
        JsonNode document = JsonSerializer.SerializeToNode(new FindingsDocument(findings), DocumentJson.WithNulls.FindingsDocument)!;
        output.Write(Text(document.AsObject(), comparison) + "\n");
    }

    /// <summary>A document's text, with what the plan says beside the rest.</summary>
    /// <param name="document">The document.</param>
    /// <param name="comparison">The comparison; null without a plan.</param>
    public static string Text(JsonObject document, PlanComparison? comparison)
    {
        if (comparison is not null)
        {
            document["plan"] = JsonSerializer.SerializeToNode(comparison, DocumentJson.WithoutNulls.PlanComparison);
        }

        return document.ToJsonString(DocumentJson.WithNulls.Options);
    }
}
