namespace SensorLab.Sets;

/// <summary>One exposure at one ISO.</summary>
/// <param name="Key">What its frames share.</param>
/// <param name="Frames">One frame or more, in the order in which they were taken.</param>
public sealed record Level(LevelKey Key, IReadOnlyList<SetFrame> Frames)
{
    /// <summary>Whether two exposure times, the shorter first, belong to one level: within 1 %.</summary>
    /// <param name="shortestSeconds">The level's shortest exposure time in seconds.</param>
    /// <param name="exposureSeconds">Another one, no shorter, in seconds.</param>
    public static bool IsSameExposure(double shortestSeconds, double exposureSeconds) => LevelGrouping.IsSameExposure(shortestSeconds, exposureSeconds);
}
