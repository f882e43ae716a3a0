using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Profiles.Json;

/// <summary>Times in UTC to the second: <c>2026-04-18T09:30:00Z</c>. Reads any ISO 8601 time with an offset.</summary>
internal sealed class UtcSecondsConverter : JsonConverter<DateTimeOffset>
{
    private const string Format = "yyyy-MM-dd'T'HH:mm:ss'Z'";

    public override DateTimeOffset Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TryGetDateTimeOffset(out DateTimeOffset time) ? time.ToUniversalTime() : throw new JsonException();

    public override void Write(Utf8JsonWriter writer, DateTimeOffset value, JsonSerializerOptions options) =>
        writer.WriteStringValue(value.UtcDateTime.ToString(Format, CultureInfo.InvariantCulture));
}
