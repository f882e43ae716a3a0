using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>The JSON document of a refusal: <c>{"findings": […]}</c>, each finding as a sensor profile holds it.</summary>
internal static class FindingsDocument
{
    internal static readonly JsonSerializerOptions Format = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    /// <summary>Writes the document.</summary>
    /// <param name="output">Where to.</param>
    /// <param name="findings">All findings of the set.</param>
    public static void Write(TextWriter output, IReadOnlyList<Finding> findings) =>
        output.WriteLine(JsonSerializer.Serialize(new { Findings = findings }, Format));
}
