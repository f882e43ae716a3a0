using System.Text.Json.Serialization;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>Source-generated metadata of a rehearsal's truth.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    WriteIndented = true,
    NewLine = "\n")]
[JsonSerializable(typeof(IReadOnlyList<IsoTruth>), TypeInfoPropertyName = "Truth")]
internal sealed partial class TruthJson : JsonSerializerContext;
