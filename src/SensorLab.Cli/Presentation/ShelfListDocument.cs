using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Shelf;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of what is on the shelf.</summary>
/// <param name="Shelf">The shelf's folder.</param>
/// <param name="Bodies">The bodies, by name.</param>
internal sealed record ShelfListDocument(string Shelf, IReadOnlyList<ShelfListDocument.BodyEntry> Bodies)
{
    /// <summary>Writes the document.</summary>
    public static void Write(TextWriter output, ProfileShelf shelf, IReadOnlyList<ListedBody> bodies)
    {
        var document = new ShelfListDocument(shelf.Folder, [.. bodies.Select(b => new BodyEntry(
            b.Body.Id,
            b.Body.Maker,
            b.Body.Model,
            b.Body.SerialNumber,
            b.Newest.Key,
            [.. b.Profiles.Select(p => new ProfileEntry(
                p.Key,
                shelf.PathOf(p.Key),
                p.CreatedUtc,
                p.Firmware,
                p.Mode,
                p.Isos,
                p.Warnings,
                p.Software,
                b.Figures is { } figures ? [.. figures[p.Key].Select(f => new ListedFigure(f.Address.Iso, f.Address.Channel, f.Address.Name, f.Figure.OfBody()))] : null))],
            b.Gaps))]);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.ShelfListDocument) + "\n");
    }

    /// <summary>A body.</summary>
    internal sealed record BodyEntry(string Body, string? Maker, string? Model, string? SerialNumber, string Use, IReadOnlyList<ProfileEntry> Profiles, BodyGaps Missing);

    /// <summary>A profile.</summary>
    internal sealed record ProfileEntry(string Profile, string File, DateTimeOffset? CreatedUtc, string? Firmware, string Mode, IReadOnlyList<int> Isos, int Warnings, string Software, IReadOnlyList<ListedFigure>? Figures);

    /// <summary>A figure of a profile, with the interval that the body's own value lies in.</summary>
    internal sealed record ListedFigure(int Iso, string? Channel, string Figure, Figure Value);
}
