using System.Text.Json.Serialization;
using SensorLab.Profiles.Placement;

namespace SensorLab.Profiles.Json;

/// <summary>Source-generated metadata of the document's types: no reflection over them at run time.</summary>
/// <remarks>
/// The generated reader sets every init property, with null or 0 where the document lacks it. Records whose default is
/// another one therefore set it in their init accessor, as in <c>init => field = value ?? []</c>.
/// </remarks>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(SensorProfile))]
[JsonSerializable(typeof(PlacementAnswer))]
[JsonSerializable(typeof(PocketSheet))]
internal sealed partial class ProfileJsonContext : JsonSerializerContext;
