using System.Text.Json;
using System.Text.Json.Serialization;
using SensorLab.Intakes;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of an intake: what there is, what is missing, and the findings as a sensor profile holds them.</summary>
internal static class IntakeDocument
{
    private static readonly JsonSerializerOptions Format = new(FindingsDocument.Format) { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    /// <summary>Writes the document: of a refused set its findings alone.</summary>
    public static void Write(TextWriter output, IntakeReport report)
    {
        if (report.CanBeCharacterised)
        {
            output.WriteLine(JsonSerializer.Serialize(report, Format));
        }
        else
        {
            FindingsDocument.Write(output, report.Findings);
        }
    }
}
