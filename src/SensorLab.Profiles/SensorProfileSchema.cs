using SensorLab.Files;

namespace SensorLab.Profiles;

/// <summary>The published JSON Schema of the sensor profile; every written profile is valid against it.</summary>
/// <remarks>JSON Schema, draft 2020-12.</remarks>
public static class SensorProfileSchema
{
    private const string ResourceName = "sensor-profile.schema.json";

    /// <summary>The schema's text.</summary>
    public static string Json { get; } = Load();

    /// <summary>The domains that it states.</summary>
    internal static DocumentSchema Domains { get; } = DocumentSchema.Parse(Json);

    private static string Load()
    {
        using Stream resource = typeof(SensorProfileSchema).Assembly.GetManifestResourceStream(ResourceName)!;
        using StreamReader reader = new(resource);
        return reader.ReadToEnd();
    }
}
