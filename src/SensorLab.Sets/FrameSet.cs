using SensorLab.Profiles;

namespace SensorLab.Sets;

/// <summary>Frames sorted into levels, with what was found wrong with them before a pixel was read.</summary>
public sealed record FrameSet
{
    /// <summary>All levels that can be measured, ISO by ISO in rising order; dark, metered, bracket, light; then by rising exposure.</summary>
    public required IReadOnlyList<Level> Levels { get; init; }

    /// <summary>What was found, refusals of single ISOs included; the levels of a refused ISO are not listed.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Frames of the set that no level uses.</summary>
    public required IReadOnlyList<SetFrame> LeftOut { get; init; }

    /// <summary>Whether nothing is left to measure: the set as a whole is refused, or each ISO of it.</summary>
    public bool IsRefused => Levels.Count == 0;
}
