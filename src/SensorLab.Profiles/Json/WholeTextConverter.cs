using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Profiles.Json;

/// <summary>Text in which half a surrogate pair (from a damaged metadata field) is the replacement character, as in every UTF-8.</summary>
internal sealed class WholeTextConverter : JsonConverter<string>
{
    public override string? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.String ? reader.GetString() : throw new JsonException();

    public override void Write(Utf8JsonWriter writer, string value, JsonSerializerOptions options) =>
        writer.WriteStringValue(value.Any(char.IsSurrogate) ? Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(value)) : value);
}
