using System.Text.Json;
using SensorLab.Files;
using SensorLab.Frames;

namespace SensorLab.Cli;

/// <summary>What is true of a rehearsal: the file that <c>rehearse</c> leaves beside its frames.</summary>
internal static class TruthFile
{
    private const int SizeLimitBytes = 16 * 1024 * 1024;
    private const int MostIsos = 1000;
    private const double LargestFigure = 1e15;

    /// <summary>The truth of one ISO: figures by their names in the contract, stops below grey as <c>snr10</c> and the like.</summary>
    internal sealed record IsoFigures(int Iso, IReadOnlyDictionary<string, double> Figures);

    /// <summary>Reads the file.</summary>
    /// <exception cref="MalformedFileException">It is no list of objects with an ISO each.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static IReadOnlyList<IsoFigures> Read(string path)
    {
        try
        {
            byte[] bytes = PlainFile.ReadAllBytes(path, SizeLimitBytes);
            using var document = JsonDocument.Parse(bytes, new JsonDocumentOptions { MaxDepth = DocumentSchema.DepthLimit });
            return [.. document.RootElement.EnumerateArray().Take(MostIsos).Select(OfIso)];
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or KeyNotFoundException or FormatException)
        {
            throw new MalformedFileException($"{path} is not a rehearsal's truth: name the .truth.json beside its frames.", e);
        }
    }

    private static IsoFigures OfIso(JsonElement element)
    {
        var figures = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (JsonProperty property in element.EnumerateObject())
        {
            IEnumerable<JsonProperty> numbers = property.Value.ValueKind == JsonValueKind.Object ? property.Value.EnumerateObject() : [property];
            foreach (JsonProperty number in numbers.Where(n => n.Value.ValueKind == JsonValueKind.Number))
            {
                double figure = number.Value.GetDouble();
                figures[number.Name] = Math.Abs(figure) <= LargestFigure ? figure : throw new FormatException($"{number.Name} is no figure.");
            }
        }

        return new IsoFigures(element.GetProperty("iso").GetInt32(), figures);
    }
}
