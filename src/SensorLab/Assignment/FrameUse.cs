using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>What a frame serves for: its role with what the role needs beside it, or nothing.</summary>
/// <param name="Role">The role; null for a frame that does not belong to the set.</param>
/// <param name="LightStep">The light step's name; null for the light that middle grey was metered in.</param>
/// <param name="Light">The light's name, for role light.</param>
/// <param name="Look">The look; null where looks don't matter or the frame says it itself.</param>
public sealed record FrameUse(FrameRole? Role, string? LightStep = null, string? Light = null, string? Look = null)
{
    /// <summary>No frame of the set.</summary>
    public static FrameUse None { get; } = new(Role: null);

    /// <summary>The role as <c>frames.csv</c> has it: its name, or none.</summary>
    public string RoleName => Role is { } role ? role.ToString().ToLowerInvariant() : "none";
}
