using System.Text.Json.Serialization;
using SensorLab.Profiles.Json;

namespace SensorLab.Profiles;

/// <summary>The published document: what was measured of one body with one firmware in one recording mode.</summary>
/// <remarks>Property names, camelCase in JSON, carry their unit last; e⁻ is <c>Electron</c>.</remarks>
public sealed record SensorProfile
{
    /// <summary>The value of <see cref="Format"/>.</summary>
    public const string FormatName = "sensorlab-profile";

    /// <summary>The latest format version that this library knows.</summary>
    public const string CurrentFormatVersion = "1.2";

    /// <summary>The version that profiles of Bayer and monochrome sensors say: they hold nothing that is newer.</summary>
    public const string BayerFormatVersion = "1.1";

    /// <summary>Always <see cref="FormatName"/>.</summary>
    public string Format { get; init => field = value ?? FormatName; } = FormatName;

    /// <summary>Major.minor; readers ignore properties that they don't know and refuse another major version.</summary>
    public string FormatVersion { get; init => field = value ?? BayerFormatVersion; } = BayerFormatVersion;

    /// <summary>The last frame's own time; null where frames have none or the profile is anonymous.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public DateTimeOffset? CreatedUtc { get; init; }

    /// <summary>What wrote the profile.</summary>
    public required SoftwareIdentity Software { get; init; }

    /// <summary>The body.</summary>
    public required BodyIdentity Body { get; init; }

    /// <summary>How the body recorded.</summary>
    public required RecordedMode RecordingMode { get; init; }

    /// <summary>The sensor's geometry.</summary>
    public required SensorGeometry Sensor { get; init; }

    /// <summary>Under what conditions the frames were shot.</summary>
    public required ShootingConditions Conditions { get; init; }

    /// <summary>How middle grey was defined; the meter figures are the worst ISO's.</summary>
    public required MiddleGrey MiddleGrey { get; init; }

    /// <summary>The size the picture is delivered at, where the user named one.</summary>
    public Delivery? Delivery { get; init; }

    /// <summary>What frames alone cannot reveal and was assumed.</summary>
    public IReadOnlyList<string> Assumptions { get; init => field = value ?? []; } = [];

    /// <summary>One entry an ISO, in rising order.</summary>
    public required IReadOnlyList<IsoProfile> IsoProfiles { get; init; }

    /// <summary>Channel ratios under other lights.</summary>
    public IReadOnlyList<LightRatios> Lights { get; init => field = value ?? []; } = [];

    /// <summary>What the user must know, the worst first.</summary>
    public IReadOnlyList<Finding> Findings { get; init => field = value ?? []; } = [];

    /// <summary>Every frame of the set.</summary>
    public IReadOnlyList<FrameRecord> Frames { get; init => field = value ?? []; } = [];

    /// <summary>The lowest format version that holds all of a sensor's profile.</summary>
    /// <param name="sensor">The sensor.</param>
    public static string FormatVersionFor(SensorGeometry sensor)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        return sensor.ColourFilterArray.Contains(ColourFilterArrayConverter.SizeMark, StringComparison.Ordinal) ? CurrentFormatVersion : BayerFormatVersion;
    }
}
