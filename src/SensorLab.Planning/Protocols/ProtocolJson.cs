using System.Text.Json.Serialization;

namespace SensorLab.Planning.Protocols;

/// <summary>Source-generated metadata of a protocol's document.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    RespectRequiredConstructorParameters = true,
    RespectNullableAnnotations = true)]
[JsonSerializable(typeof(Protocol))]
internal sealed partial class ProtocolJson : JsonSerializerContext;
