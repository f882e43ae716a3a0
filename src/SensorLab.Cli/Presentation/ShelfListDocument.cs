using System.Text.Json;
using SensorLab.Shelf;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of what is on the shelf.</summary>
/// <param name="Shelf">The shelf's folder.</param>
/// <param name="Bodies">The bodies, by name.</param>
internal sealed record ShelfListDocument(string Shelf, IReadOnlyList<ShelfListDocument.BodyEntry> Bodies)
{
    /// <summary>Writes the document.</summary>
    public static void Write(TextWriter output, ProfileShelf shelf, IReadOnlyList<(ShelfBody Body, IReadOnlyList<ShelvedProfile> Profiles, BodyGaps Gaps)> bodies, int? iso)
    {
        var document = new ShelfListDocument(shelf.Folder, [.. bodies.Select(b => new BodyEntry(
            b.Body.Id,
            b.Body.Maker,
            b.Body.Model,
            b.Body.SerialNumber,
            b.Profiles[^1].Key,
            [.. b.Profiles.Where(p => iso is null || p.Isos.Contains(iso.Value)).Select(p => new ProfileEntry(p.Key, shelf.PathOf(p.Key), p.CreatedUtc, p.Firmware, p.Mode, p.Isos, p.Warnings, p.Software))],
            b.Gaps))]);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.ShelfListDocument) + "\n");
    }

    /// <summary>A body.</summary>
    internal sealed record BodyEntry(string Body, string? Maker, string? Model, string? SerialNumber, string Use, IReadOnlyList<ProfileEntry> Profiles, BodyGaps Missing);

    /// <summary>A profile.</summary>
    internal sealed record ProfileEntry(string Profile, string File, DateTimeOffset? CreatedUtc, string? Firmware, string Mode, IReadOnlyList<int> Isos, int Warnings, string Software);
}
