using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Intakes;
using SensorLab.Planning.Plans;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of an intake: what there is, what is missing, and the findings as a sensor profile holds them.</summary>
internal static class IntakeDocument
{
    /// <summary>Writes the document: of a refused set its findings alone; beside either what the plan says, where there is one.</summary>
    public static void Write(TextWriter output, IntakeReport report, PlanComparison? comparison = null)
    {
        if (!report.CanBeCharacterised)
        {
            FindingsDocument.Write(output, report.Findings, comparison);
            return;
        }

        JsonNode document = JsonSerializer.SerializeToNode(report, DocumentJson.WithoutNulls.IntakeReport)!;
        output.Write(FindingsDocument.Text(document.AsObject(), comparison) + "\n");
    }
}
