using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Profiles.Json;

/// <summary>A colour filter array: its name alone where four letters of a Bayer order or "monochrome" say all, an object with rows, columns and pattern of any other.</summary>
public sealed class ColourFilterArrayConverter : JsonConverter<string>
{
    /// <summary>What stands between the size and the letters of a pattern that is no 2×2 one.</summary>
    internal const char SizeMark = ':';

    /// <inheritdoc/>
    public override string? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.String)
        {
            string name = reader.GetString()!;
            return name.Contains(SizeMark, StringComparison.Ordinal) ? throw new JsonException() : name;
        }

        using JsonDocument document = reader.TokenType == JsonTokenType.StartObject ? JsonDocument.ParseValue(ref reader) : throw new JsonException();
        JsonElement array = document.RootElement;
        bool isWhole = array.TryGetProperty("rows", out JsonElement rows) & array.TryGetProperty("columns", out JsonElement columns) & array.TryGetProperty("pattern", out JsonElement pattern);
        return isWhole && SideOf(rows) is int height && SideOf(columns) is int width
            && pattern.ValueKind == JsonValueKind.String && pattern.GetString() is { } letters && letters.Length == height * width && !letters.AsSpan().ContainsAnyExcept("RGB")
                ? string.Create(CultureInfo.InvariantCulture, $"{height}x{width}{SizeMark}{letters}")
                : throw new JsonException();
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, string value, JsonSerializerOptions options)
    {
        if (value.Split(SizeMark) is not [var size, var letters] || size.Split('x') is not [var rows, var columns])
        {
            writer.WriteStringValue(value);
            return;
        }

        writer.WriteStartObject();
        writer.WriteNumber("rows", int.Parse(rows, CultureInfo.InvariantCulture));
        writer.WriteNumber("columns", int.Parse(columns, CultureInfo.InvariantCulture));
        writer.WriteString("pattern", letters);
        writer.WriteEndObject();
    }

    private static int? SideOf(JsonElement value) => value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out int side) && side is >= 1 and <= 8 ? side : null;
}
