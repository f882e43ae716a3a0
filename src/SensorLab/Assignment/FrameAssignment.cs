using SensorLab.Profiles;

namespace SensorLab.Assignment;

/// <summary>Every frame of a card with its use, and what is left to ask.</summary>
public sealed record FrameAssignment
{
    /// <summary>The frames, by path.</summary>
    public required IReadOnlyList<AssignedFrame> Frames { get; init; }

    /// <summary>What only the user knows.</summary>
    public required IReadOnlyList<AssignmentQuestion> Questions { get; init; }

    /// <summary>What the user must know beside.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];
}
