using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Publishing.Bundles;

/// <summary>The manifest as JSON.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(BundleManifest))]
[JsonSerializable(typeof(DngNoiseDocument))]
internal sealed partial class ManifestJson : JsonSerializerContext
{
    private static readonly ManifestJson Written = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        AllowDuplicateProperties = false,
        MaxDepth = 16,
        WriteIndented = true,
        IndentSize = 2,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });

    /// <summary>A manifest's bytes: UTF-8 without a byte order mark, ended by a line feed.</summary>
    public static byte[] BytesOf(BundleManifest manifest) => [.. JsonSerializer.SerializeToUtf8Bytes(manifest, Written.BundleManifest), (byte)'\n'];

    /// <summary>The noise profiles' bytes, in the same form.</summary>
    public static byte[] BytesOf(DngNoiseDocument document) => [.. JsonSerializer.SerializeToUtf8Bytes(document, Written.DngNoiseDocument), (byte)'\n'];

    /// <summary>Reads a manifest.</summary>
    /// <exception cref="JsonException">It is none.</exception>
    public static BundleManifest ManifestOf(ReadOnlySpan<byte> bytes) =>
        JsonSerializer.Deserialize(bytes, Written.BundleManifest) ?? throw new JsonException();
}
