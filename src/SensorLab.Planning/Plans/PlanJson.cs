using System.Text.Json.Serialization;

namespace SensorLab.Planning.Plans;

/// <summary>Source-generated metadata of a plan's document.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectNullableAnnotations = true)]
[JsonSerializable(typeof(ShotPlan))]
internal sealed partial class PlanJson : JsonSerializerContext;
