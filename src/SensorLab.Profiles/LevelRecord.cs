using System.Text.Json.Serialization;

namespace SensorLab.Profiles;

/// <summary>The statistics of one level: one ISO, exposure time, aperture and light step.</summary>
public sealed record LevelRecord
{
    /// <summary>"dark", "metered", "bracket" or "light".</summary>
    public required string Role { get; init; }

    /// <summary>Exposure time in seconds.</summary>
    public required double ExposureSeconds { get; init; }

    /// <summary>Aperture as f-number; null where unknown or without contacts.</summary>
    public double? ApertureFNumber { get; init; }

    /// <summary>The light step, where the light was moved on purpose.</summary>
    public string? LightStep { get; init; }

    /// <summary>The light's name; null but for role light.</summary>
    public string? Light { get; init; }

    /// <summary>EV relative to middle grey, from the green signal (Y in monochrome); null for dark.</summary>
    public double? Ev { get; init; }

    /// <summary>Frames used.</summary>
    public required int Frames { get; init; }

    /// <summary>Photosites a channel in the region; <see cref="LevelChannel.Pixels"/> where channels have not all as many.</summary>
    public required long PixelsPerChannel { get; init; }

    /// <summary>Rows of photosites a channel in the region: pixels of a row are not independent. Null where a profile does not say.</summary>
    public int? RowsPerChannel { get; init; }

    /// <summary>Columns of photosites a channel in the region; null where the channels' pixels fill their rows, so that both numbers tell it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? ColumnsPerChannel { get; init; }

    /// <summary>What the previews of some of its frames show; null where none was measured.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<PreviewCodes>? PreviewCodes { get; init; }

    /// <summary>The statistics of each channel.</summary>
    public required IReadOnlyList<LevelChannel> Channels { get; init; }
}
