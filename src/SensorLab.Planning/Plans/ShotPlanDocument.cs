using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Files;

namespace SensorLab.Planning.Plans;

/// <summary>A plan as JSON: written and read again.</summary>
public static class ShotPlanDocument
{
    /// <summary>The value of "format".</summary>
    public const string FormatName = "sensorlab-plan";

    private const string FormatVersion = "1.0";

    // Ten thousand steps with all their words.
    private const int SizeLimitBytes = 16 * 1024 * 1024;

    private static readonly DocumentSchema Domains = DocumentSchema.OfResource(typeof(ShotPlanDocument), "shot-plan.schema.json");

    private static readonly JsonSerializerOptions Layout = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        WriteIndented = true,
        NewLine = "\n",
    };

    /// <summary>The document.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>UTF-8 with line feeds; the same plan gives the same bytes.</returns>
    public static byte[] Write(ShotPlan plan)
    {
        JsonObject content = JsonSerializer.SerializeToNode(plan, PlanJson.Default.ShotPlan)!.AsObject();
        var document = new JsonObject { ["format"] = FormatName, ["formatVersion"] = FormatVersion };
        foreach ((string name, JsonNode? value) in content.ToArray())
        {
            content.Remove(name);
            document.Add(name, value);
        }

        return Encoding.UTF8.GetBytes(document.ToJsonString(Layout) + "\n");
    }

    /// <summary>Reads a plan.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="PlanFormatException">The file is no plan, one of a later major version, or holds what no plan can.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read.</exception>
    public static ShotPlan ReadFile(string path) => Read(PlainFile.ReadAllBytes(path, SizeLimitBytes), path);

    /// <summary>Reads a plan's document.</summary>
    /// <param name="bytes">The document, UTF-8.</param>
    /// <param name="path">What it is called where something is off with it.</param>
    /// <exception cref="PlanFormatException">It is no plan, one of a later major version, or holds what no plan can.</exception>
    public static ShotPlan Read(byte[] bytes, string path)
    {
        try
        {
            JsonObject document = JsonNode.Parse(bytes, documentOptions: new JsonDocumentOptions { MaxDepth = DocumentSchema.DepthLimit }) as JsonObject
                ?? throw new PlanFormatException($"{path} is not a shot list.");
            if ((string?)document["format"] != FormatName || ((string?)document["formatVersion"])?.Split('.')[0] != "1")
            {
                throw new PlanFormatException($"{path} is not a shot list of a version that this program knows.");
            }

            Domains.Require(bytes);
            ShotPlan plan = document.Deserialize(PlanJson.Default.ShotPlan) ?? throw new PlanFormatException($"{path} is not a shot list.");
            RequireTimes(path, plan);
            return plan;
        }
        catch (DocumentException e)
        {
            throw new PlanFormatException($"{path} is not a sound shot list. {e.Message}", e);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or ArgumentException)
        {
            throw new PlanFormatException($"{path} is not a shot list.", e);
        }
    }

    private static void RequireTimes(string path, ShotPlan plan)
    {
        PlanStep?[] steps = [.. plan.Steps];
        int at = Array.FindIndex(steps, step => step is null || step.Actions.Contains(null!) || ShutterTime.Nearest(step.ExposureSeconds) is null);
        if (at >= 0)
        {
            throw new PlanFormatException(string.Create(CultureInfo.InvariantCulture, $"{path} is not a sound shot list. steps[{at}] is none, or has a time that no dial has."));
        }
    }
}
