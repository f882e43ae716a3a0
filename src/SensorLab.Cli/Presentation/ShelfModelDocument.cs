using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.Shelf.Models;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of a model's bodies compared.</summary>
internal sealed record ShelfModelDocument(string Model, string Mode, int Bodies, int OtherModes, IReadOnlyList<ShelfModelDocument.FigureEntry> Figures)
{
    /// <summary>Writes the document.</summary>
    public static void Write(TextWriter output, ModelSpread spread)
    {
        var document = new ShelfModelDocument(spread.Name, spread.Mode, spread.Bodies, spread.OtherModes, [.. spread.Figures.Select(f => new FigureEntry(
            f.Address.Iso, f.Address.Channel, f.Address.Name, f.Bodies.Count, f.Bounds, f.Mean, f.StandardDeviation, f.Unmeasured, [.. f.StandingOut.Select(BodyOf)]))]);
        output.Write(JsonSerializer.Serialize(document, DocumentJson.WithNulls.ShelfModelDocument) + "\n");
    }

    private static OutlyingBody BodyOf(BodyFigure figure) => new(figure.Profile.Body.Id, figure.Profile.Body.SerialNumber, figure.Profile.Key, figure.Value, figure.StandardUncertainty);

    /// <summary>A figure over the bodies.</summary>
    internal sealed record FigureEntry(
        int Iso, string? Channel, string Figure, int Bodies, int Bounds, double Mean, double? StandardDeviation, Figure? Unmeasured, IReadOnlyList<OutlyingBody> StandingOut);

    /// <summary>A body that stands out.</summary>
    internal sealed record OutlyingBody(string Body, string? SerialNumber, string Profile, double Value, double StandardUncertainty);
}
