using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Profiles.Json;

/// <summary>EV a channel, in the order R, G1, G2, B, Y and then by name: a dictionary promises no order of its own.</summary>
internal sealed class ChannelEvConverter : JsonConverter<IReadOnlyDictionary<string, double>>
{
    public override IReadOnlyDictionary<string, double> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType != JsonTokenType.StartObject)
        {
            throw new JsonException();
        }

        Dictionary<string, double> channelEv = new(StringComparer.Ordinal);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            string channel = reader.GetString()!;
            reader.Read();
            if (reader.TokenType != JsonTokenType.Number || !channelEv.TryAdd(channel, reader.GetDouble()))
            {
                throw new JsonException();
            }
        }

        return channelEv;
    }

    public override void Write(Utf8JsonWriter writer, IReadOnlyDictionary<string, double> value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        foreach (string channel in InOrder(value.Keys))
        {
            writer.WriteNumber(channel, value[channel]);
        }

        writer.WriteEndObject();
    }

    private static IEnumerable<string> InOrder(IEnumerable<string> channels) =>
        channels.OrderBy(c => ChannelName.InOrder.IndexOf(c) is var i && i < 0 ? ChannelName.InOrder.Length : i).ThenBy(c => c, StringComparer.Ordinal);
}
