using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace SensorLab.Reports.Tests.Samples;

/// <summary>Compares a model with its golden file, which changes only with SENSORLAB_GOLDEN=write.</summary>
internal static class GoldenFile
{
    private static readonly JsonSerializerOptions Options = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new SevenDigits(), new JsonStringEnumConverter() },
    };

    public static void Check<T>(string name, T model)
    {
        string path = Path.Combine(RepositoryFolder.Path, "tests", "SensorLab.Reports.Tests", "Golden", name + ".json");
        string text = JsonSerializer.Serialize(model, Options) + "\n";
        if (Environment.GetEnvironmentVariable("SENSORLAB_GOLDEN") == "write")
        {
            File.WriteAllText(path, text);
        }

        Assert.True(File.Exists(path), $"{path} is missing.");
        Assert.Equal(File.ReadAllText(path), text);
    }

    // Seven digits are more than any chart shows, and stable where the last bits of a logarithm are not.
    private sealed class SevenDigits : JsonConverter<double>
    {
        public override double Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetDouble();

        public override void Write(Utf8JsonWriter writer, double value, JsonSerializerOptions options) =>
            writer.WriteRawValue(value.ToString("G7", CultureInfo.InvariantCulture));
    }
}
