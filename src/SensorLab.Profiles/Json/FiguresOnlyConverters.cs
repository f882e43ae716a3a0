using System.Text.Json;

namespace SensorLab.Profiles.Json;

/// <summary>Passes over a list.</summary>
/// <typeparam name="T">What it is of.</typeparam>
internal sealed class PassedOverConverter<T> : DirectConverter<IReadOnlyList<T>>
{
    public override IReadOnlyList<T> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        Require(ref reader, JsonTokenType.StartArray);
        reader.Skip();
        return [];
    }
}

/// <summary>Reads of an ISO's levels the metered ones alone: what the meter's readings were is told by them.</summary>
internal sealed class MeteredLevelsConverter : DirectConverter<IReadOnlyList<LevelRecord>>
{
    private static readonly LevelDirectConverter Level = new();

    public override IReadOnlyList<LevelRecord> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        Require(ref reader, JsonTokenType.StartArray);
        var metered = new List<LevelRecord>();
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            if (IsMetered(reader))
            {
                metered.Add(Level.Read(ref reader, typeof(LevelRecord), options));
            }
            else
            {
                reader.Skip();
            }
        }

        return metered;
    }

    // A copy of the reader looks ahead.
    private static bool IsMetered(Utf8JsonReader ahead)
    {
        Require(ref ahead, JsonTokenType.StartObject);
        while (ahead.Read() && ahead.TokenType == JsonTokenType.PropertyName)
        {
            bool isRole = ahead.ValueTextEquals("role"u8);
            ahead.Read();
            if (isRole)
            {
                return ahead.TokenType == JsonTokenType.String && ahead.ValueTextEquals("metered"u8);
            }

            ahead.Skip();
        }

        throw new JsonException();
    }
}
