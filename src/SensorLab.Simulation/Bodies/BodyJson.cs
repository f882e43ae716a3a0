using System.Text.Json.Serialization;

namespace SensorLab.Simulation.Bodies;

/// <summary>Source-generated metadata of a body file.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    WriteIndented = true)]
[JsonSerializable(typeof(VirtualBody))]
internal sealed partial class BodyJson : JsonSerializerContext;
