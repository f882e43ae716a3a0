using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using SensorLab.Profiles.Placement;

namespace SensorLab.Profiles.Json;

/// <summary>How documents look: names, order, line ends, and what is left out.</summary>
internal static class ProfileJson
{
    /// <summary>Objects and arrays inside one another: the document needs 10, properties of later versions may need more.</summary>
    public const int DepthLimit = 32;

    /// <summary>Options of every document; read-only.</summary>
    public static JsonSerializerOptions Options { get; } = Create();

    /// <summary>Metadata of the sensor profile.</summary>
    public static JsonTypeInfo<SensorProfile> SensorProfile { get; } =
        (JsonTypeInfo<SensorProfile>)Options.GetTypeInfo(typeof(SensorProfile));

    /// <summary>Metadata that reads sensor profiles as this version writes them, many times as fast, and writes none.</summary>
    public static JsonTypeInfo<SensorProfile> DirectSensorProfile { get; } =
        (JsonTypeInfo<SensorProfile>)Direct(new LevelDirectConverter()).GetTypeInfo(typeof(SensorProfile));

    /// <summary>Metadata that reads the figures of sensor profiles: of levels the metered ones, no frames, no SNR curves.</summary>
    public static JsonTypeInfo<SensorProfile> FiguresOfSensorProfile { get; } =
        (JsonTypeInfo<SensorProfile>)Direct(new MeteredLevelsConverter(), new PassedOverConverter<FrameRecord>(), new PassedOverConverter<SnrPoint>()).GetTypeInfo(typeof(SensorProfile));

    /// <summary>Metadata of the placement answer.</summary>
    public static JsonTypeInfo<PlacementAnswer> PlacementAnswer { get; } =
        (JsonTypeInfo<PlacementAnswer>)Options.GetTypeInfo(typeof(PlacementAnswer));

    /// <summary>Metadata of the pocket sheet.</summary>
    public static JsonTypeInfo<PocketSheet> PocketSheet { get; } =
        (JsonTypeInfo<PocketSheet>)Options.GetTypeInfo(typeof(PocketSheet));

    private static JsonSerializerOptions Create()
    {
        JsonSerializerOptions options = new()
        {
            TypeInfoResolver = ProfileJsonContext.Default.WithAddedModifier(LeaveOutAbsentFigures).WithAddedModifier(RequireWhatIsNotNullable),
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            RespectNullableAnnotations = true,
            RespectRequiredConstructorParameters = true,
            AllowDuplicateProperties = false,
            MaxDepth = DepthLimit,
            WriteIndented = true,
            IndentSize = 2,
            NewLine = "\n",
            // A document is a file, not markup: ′, σ and < stay readable. Whoever puts it into a page encodes it there.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            Converters =
            {
                new JsonStringEnumConverter<FindingSeverity>(JsonNamingPolicy.CamelCase, allowIntegerValues: false),
                new JsonStringEnumConverter<PocketKinship>(JsonNamingPolicy.CamelCase, allowIntegerValues: false),
                new UtcSecondsConverter(),
                new WholeTextConverter(),
                new ChannelEvConverter(),
                new CodeCountsConverter(),
            },
        };
        options.MakeReadOnly();
        return options;
    }

    private static JsonSerializerOptions Direct(params JsonConverter[] converters)
    {
        var options = new JsonSerializerOptions(Options) { Converters = { new FigureDirectConverter() } };
        foreach (JsonConverter converter in converters)
        {
            options.Converters.Add(converter);
        }

        options.MakeReadOnly();
        return options;
    }

    private static void LeaveOutAbsentFigures(JsonTypeInfo type)
    {
        foreach (JsonPropertyInfo property in type.Properties)
        {
            if (property.PropertyType == typeof(Figure))
            {
                property.ShouldSerialize = static (_, figure) => figure is not null;
            }
        }
    }

    private static void RequireWhatIsNotNullable(JsonTypeInfo type)
    {
        foreach (JsonPropertyInfo property in type.Properties)
        {
            property.IsRequired = property.IsRequired && !property.IsSetNullable;
        }
    }
}
