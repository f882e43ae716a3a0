using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of a refusal: <c>{"findings": […]}</c>, each finding as a sensor profile holds it.</summary>
internal static class FindingsDocument
{
    internal static readonly JsonSerializerOptions Format = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    private static readonly JsonSerializerOptions WithoutNulls = new(Format) { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    /// <summary>Writes the document.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="findings">All findings of the set.</param>
    /// <param name="comparison">What the plan says of the set, under "plan"; null without one.</param>
    public static void Write(TextWriter output, IReadOnlyList<Finding> findings, PlanComparison? comparison = null)
    {
        JsonObject document = JsonSerializer.SerializeToNode(new { Findings = findings }, Format)!.AsObject();
        output.WriteLine(comparison is null ? document.ToJsonString(Format) : WithPlan(document, comparison));
    }

    /// <summary>A document with what the plan says beside the rest.</summary>
    /// <param name="document">The document.</param>
    /// <param name="comparison">The comparison.</param>
    public static string WithPlan(JsonObject document, PlanComparison comparison)
    {
        document["plan"] = JsonSerializer.SerializeToNode(comparison, WithoutNulls);
        return document.ToJsonString(Format);
    }
}
