using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Shelf.History;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of a body's history.</summary>
/// <param name="Body">The body's id.</param>
/// <param name="Maker">The maker.</param>
/// <param name="Model">The model.</param>
/// <param name="SerialNumber">The serial number.</param>
/// <param name="Courses">The courses of figures.</param>
internal sealed record ShelfHistoryDocument(string Body, string? Maker, string? Model, string? SerialNumber, IReadOnlyList<ShelfHistoryDocument.Course> Courses)
{
    /// <summary>Writes the document.</summary>
    public static void Write(TextWriter output, BodyHistory history)
    {
        var document = new ShelfHistoryDocument(history.Body.Id, history.Body.Maker, history.Body.Model, history.Body.SerialNumber, [.. history.Courses.Select(c => new Course(
            c.Address.Iso,
            c.Address.Channel,
            c.Address.Name,
            c.Mode,
            [.. c.Points.Select(p => new Point(
                p.Profile.Key,
                p.Profile.CreatedUtc,
                p.Profile.Firmware,
                p.Figure,
                p.Step is { } step ? RetestResultWriter.WordOf(step.Verdict) : null,
                p.Step?.Difference,
                p.Step?.Margin,
                p.Step is null ? null : WordOf(p.Step.Unit),
                p.NotCompared))]))]);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.ShelfHistoryDocument) + "\n");
    }

    private static string WordOf(MarginUnit unit) => unit.ToString().ToLowerInvariant();

    /// <summary>A figure's course.</summary>
    internal sealed record Course(int Iso, string? Channel, string Figure, string Mode, IReadOnlyList<Point> Points);

    /// <summary>A figure as one profile holds it, and how it compares with the one before.</summary>
    internal sealed record Point(
        string Profile, DateTimeOffset? CreatedUtc, string? Firmware, Figure Figure, string? Verdict, Figure? Difference, double? Margin, string? MarginUnit, string? NotCompared);
}
