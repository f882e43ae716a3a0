using System.Text.Json;
using SensorLab.Assignment;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of an assignment: every frame with its use, what is left to ask, and the findings as a sensor profile holds them.</summary>
/// <param name="Frames">The frames, by path.</param>
/// <param name="Questions">What only the user knows.</param>
/// <param name="Findings">The findings, the worst first.</param>
internal sealed record AssignmentDocument(
    IReadOnlyList<AssignmentDocument.Frame> Frames, IReadOnlyList<AssignmentQuestion> Questions, IReadOnlyList<Finding> Findings)
{
    /// <summary>Writes the document.</summary>
    public static void Write(TextWriter output, CardAssignment card)
    {
        var document = new AssignmentDocument(
            [.. card.Assignment.Frames.Select(f => new Frame(f.File, f.Use.RoleName, f.Iso, f.Use.LightStep, f.Use.Light, f.Use.Look, f.IsSure, f.Why))],
            card.Assignment.Questions,
            card.Findings);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.AssignmentDocument) + "\n");
    }

    /// <summary>A frame with its use.</summary>
    internal sealed record Frame(string File, string Role, int? Iso, string? LightStep, string? Light, string? Look, bool Sure, string Why);
}
