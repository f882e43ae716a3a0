using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Profiles.Json;

/// <summary>A histogram's counts on one line: a line a code would make the document unreadable and several times as large.</summary>
internal sealed class CodeCountsConverter : JsonConverter<IReadOnlyList<long>>
{
    public override IReadOnlyList<long> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType != JsonTokenType.StartArray)
        {
            throw new JsonException();
        }

        List<long> counts = [];
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            if (reader.TokenType != JsonTokenType.Number || !reader.TryGetInt64(out long count))
            {
                throw new JsonException();
            }

            counts.Add(count);
        }

        return counts;
    }

    public override void Write(Utf8JsonWriter writer, IReadOnlyList<long> value, JsonSerializerOptions options) =>
        writer.WriteRawValue($"[{string.Join(", ", value.Select(c => c.ToString(CultureInfo.InvariantCulture)))}]", skipInputValidation: true);
}
