using System.Text.Json;
using System.Text.Json.Serialization;
using SensorLab.Profiles.Placement;

namespace SensorLab.Reports.Pocket;

/// <summary>The dials that the pocket page offers, as its script gets them.</summary>
internal sealed partial record PocketScales(IReadOnlyList<ThirdStop> Shutters, IReadOnlyList<ThirdStop> Apertures, IReadOnlyList<ThirdStop> Isos)
{
    /// <summary>All of them as JSON.</summary>
    public static string Json { get; } =
        JsonSerializer.Serialize(new PocketScales(ThirdStopScale.Shutters, ThirdStopScale.Apertures, ThirdStopScale.Isos), ScalesJson.Default.PocketScales);

    [JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
    [JsonSerializable(typeof(PocketScales))]
    private sealed partial class ScalesJson : JsonSerializerContext;
}
