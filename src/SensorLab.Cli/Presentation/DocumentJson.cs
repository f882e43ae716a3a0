using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using SensorLab.Intakes;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>Source-generated metadata of the documents that <c>--json</c> puts on standard output, and how they look.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(FindingsDocument))]
[JsonSerializable(typeof(VerificationDocument))]
[JsonSerializable(typeof(IntakeReport))]
[JsonSerializable(typeof(PlanComparison))]
[JsonSerializable(typeof(AssignmentDocument))]
[JsonSerializable(typeof(DebriefDocument))]
[JsonSerializable(typeof(ConfirmDocument))]
[JsonSerializable(typeof(ShelfListDocument))]
[JsonSerializable(typeof(ShelfHistoryDocument))]
[JsonSerializable(typeof(ShelfModelDocument))]
internal sealed partial class DocumentJson : JsonSerializerContext
{
    /// <summary>Properties without a value are written as null.</summary>
    public static DocumentJson WithNulls { get; } = new(Form(JsonIgnoreCondition.Never));

    /// <summary>Properties without a value are left out.</summary>
    public static DocumentJson WithoutNulls { get; } = new(Form(JsonIgnoreCondition.WhenWritingNull));

    private static JsonSerializerOptions Form(JsonIgnoreCondition leftOut) => new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = leftOut,
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter<FindingSeverity>(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };
}
