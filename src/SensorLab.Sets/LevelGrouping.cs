using SensorLab.Frames;

namespace SensorLab.Sets;

/// <summary>Frames to levels: exposure times within 1 % of a level's shortest are one level.</summary>
/// <remarks>
/// Exposures are sorted before they are grouped, so that the levels hang neither on names nor on the order of
/// reading. Aperture tells levels apart only for named lights: a bracket of two apertures is refused before, and
/// without light there is nothing for an aperture to change.
/// </remarks>
internal static class LevelGrouping
{
    /// <summary>Exposure times this close are one level (relative); the frame set's contract.</summary>
    public const double ExposureTolerance = 0.01;

    // 1/100 s written as 0.0101 s is 1 % off on paper, and a hair more in binary.
    private const double BinaryRoundingAllowance = 1e-9;

    public static IReadOnlyList<Level> Group(IEnumerable<SetFrame> frames) =>
    [
        .. frames
            .GroupBy(BaseKeyOf)
            .SelectMany(group => ByExposure(group.Key, group))
            .OrderBy(level => level.Key.Iso)
            .ThenBy(level => level.Key.Role)
            .ThenBy(level => level.Key.Light, StringComparer.Ordinal)
            .ThenBy(level => level.Key.ExposureSeconds)
            .ThenBy(level => level.Key.LightStep, StringComparer.Ordinal)
            .ThenBy(level => level.Key.ApertureFNumber),
    ];

    /// <summary>Whether two exposure times, the shorter first, belong to one level.</summary>
    public static bool IsSameExposure(double shortest, double exposureSeconds) =>
        exposureSeconds <= shortest * (1 + ExposureTolerance + BinaryRoundingAllowance);

    private static IEnumerable<Level> ByExposure(LevelKey baseKey, IEnumerable<SetFrame> frames)
    {
        var group = new List<SetFrame>();
        foreach (SetFrame frame in frames.OrderBy(ExposureOf))
        {
            if (group.Count > 0 && !IsSameExposure(ExposureOf(group[0]), ExposureOf(frame)))
            {
                yield return LevelOf(baseKey, group);
                group = [];
            }

            group.Add(frame);
        }

        yield return LevelOf(baseKey, group);
    }

    private static Level LevelOf(LevelKey baseKey, List<SetFrame> frames)
    {
        double shortest = ExposureOf(frames[0]);
        LevelKey key = baseKey with { ExposureSeconds = shortest, ApertureFNumber = Aperture.CommonFNumberOf(frames) };
        return new Level(key, [.. frames.Order(FrameOrder.Taken)]);
    }

    private static LevelKey BaseKeyOf(SetFrame frame)
    {
        FrameRole role = frame.Role!.Value;
        bool isNamedLight = role == FrameRole.Light;
        return new LevelKey(
            frame.Raw.Metadata.Iso!.Value,
            role,
            ExposureSeconds: 0,
            isNamedLight ? Aperture.KnownFNumberOf(frame) : null,
            role == FrameRole.Dark ? null : frame.LightStep,
            isNamedLight ? frame.Light : null);
    }

    private static double ExposureOf(SetFrame frame) => frame.Raw.Metadata.ExposureSeconds!.Value;
}
