using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Samples;

/// <summary>Compares a chart's model with its approved one, as JSON.</summary>
internal static class GoldenModel
{
    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new SevenDigits(), new JsonStringEnumConverter() },
    };

    public static void Verify<T>(string name, T model) =>
        GoldenFile.Verify(JsonSerializer.Serialize(model, Options), $"tests/SensorLab.Reports.Tests/Approved/{name}.json");

    // Seven digits are more than any chart shows, and stable where the last bits of a logarithm are not.
    private sealed class SevenDigits : JsonConverter<double>
    {
        public override double Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetDouble();

        public override void Write(Utf8JsonWriter writer, double value, JsonSerializerOptions options) =>
            writer.WriteRawValue(value.ToString("G7", CultureInfo.InvariantCulture));
    }
}
