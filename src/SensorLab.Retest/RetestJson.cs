using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Retest;

/// <summary>Source-generated metadata of a comparison's document.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(RetestDocument))]
internal sealed partial class RetestJson : JsonSerializerContext
{
    private static readonly RetestJson Written = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });

    /// <summary>The document as UTF-8, lines ended by a line feed.</summary>
    public static byte[] BytesOf(RetestDocument document) => JsonSerializer.SerializeToUtf8Bytes(document, Written.RetestDocument);
}
