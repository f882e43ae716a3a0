using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using SensorLab.Intakes;
using SensorLab.Planning.Plans;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of an intake: what there is, what is missing, and the findings as a sensor profile holds them.</summary>
internal static class IntakeDocument
{
    private static readonly JsonSerializerOptions Format = new(FindingsDocument.Format) { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    /// <summary>Writes the document: of a refused set its findings alone; beside either what the plan says, where there is one.</summary>
    public static void Write(TextWriter output, IntakeReport report, PlanComparison? comparison = null)
    {
        if (!report.CanBeCharacterised)
        {
            FindingsDocument.Write(output, report.Findings, comparison);
            return;
        }

        JsonObject document = JsonSerializer.SerializeToNode(report, Format)!.AsObject();
        output.WriteLine(comparison is null ? document.ToJsonString(Format) : FindingsDocument.WithPlan(document, comparison));
    }
}
