using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Bench.Api;

/// <summary>The documents' metadata, made when they are compiled.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, NewLine = "\n")]
[JsonSerializable(typeof(BenchState))]
[JsonSerializable(typeof(IReadOnlyList<FrameBrief>))]
[JsonSerializable(typeof(OpenSetRequest))]
[JsonSerializable(typeof(PlanFormRequest))]
[JsonSerializable(typeof(SayRequest))]
[JsonSerializable(typeof(WantedRequest))]
[JsonSerializable(typeof(RetestRequest))]
[JsonSerializable(typeof(DebriefRequest))]
[JsonSerializable(typeof(PublishRequest))]
[JsonSerializable(typeof(PublishedBrief))]
[JsonSerializable(typeof(Fault))]
[JsonSerializable(typeof(FolderListing))]
[JsonSerializable(typeof(FormDefaults))]
[JsonSerializable(typeof(Sessions.JournalEntry))]
internal sealed partial class BenchJson : JsonSerializerContext;
