using SensorLab.Frames;

namespace SensorLab.Sets;

/// <summary>A frame of a frame set: the raw frame, and what the set says of it beyond the frame's own metadata.</summary>
public sealed record SetFrame
{
    /// <summary>Path inside the frame set with forward slashes.</summary>
    public required string File { get; init; }

    /// <summary>The frame, its metadata already overridden by frames.csv.</summary>
    public required RawFrame Raw { get; init; }

    /// <summary>What the frame serves for; null where nothing says.</summary>
    public FrameRole? Role { get; init; }

    /// <summary>Lamp or filter moved on purpose inside an ISO.</summary>
    public string? LightStep { get; init; }

    /// <summary>The light's name, for role light.</summary>
    public string? Light { get; init; }

    /// <summary>
    /// A key made of the frame's pixel bytes, so that frames without a capture time have an order that their names
    /// do not change.
    /// </summary>
    public required ulong ContentKey { get; init; }
}
