using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>A frame whose use is to be told: what it says of itself, and what a small sample of its photosites shows.</summary>
public sealed record SampledFrame
{
    /// <summary>Path inside the tree with forward slashes.</summary>
    public required string File { get; init; }

    /// <summary>The frame, its metadata already overridden by what the user wrote.</summary>
    public required RawFrame Raw { get; init; }

    /// <summary>What its photosites show.</summary>
    public required FrameSample Sample { get; init; }

    /// <summary>A key made of the frame's pixel bytes: the same file twice has it twice.</summary>
    public required ulong ContentKey { get; init; }

    /// <summary>What the folder that it lies in is named for; null where that is no role.</summary>
    public FrameUse? Filed { get; init; }

    /// <summary>What the user's own row of frames.csv says the frame is; null where none does.</summary>
    public FrameUse? Said { get; init; }

    /// <summary>Whether the user's own frames.csv says in which light it was shot, blank for the metered light.</summary>
    public bool IsLightSaid { get; init; }
}
