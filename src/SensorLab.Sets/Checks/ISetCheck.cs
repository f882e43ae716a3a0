using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>One thing that can be wrong with a set of frames, found from metadata.</summary>
internal interface ISetCheck
{
    IEnumerable<Finding> Examine(CheckedSet set);
}

/// <summary>The frames that passed the sieves, and the levels that they form.</summary>
internal sealed record CheckedSet(IReadOnlyList<SetFrame> Frames, IReadOnlyList<Level> Levels, GreyMethod Grey)
{
    /// <summary>ISO by ISO in rising order.</summary>
    public IEnumerable<IGrouping<int, SetFrame>> FramesByIso =>
        Frames.GroupBy(f => f.Raw.Metadata.Iso!.Value).OrderBy(g => g.Key);

    /// <summary>ISO by ISO in rising order.</summary>
    public IEnumerable<IGrouping<int, Level>> LevelsByIso => Levels.GroupBy(l => l.Key.Iso).OrderBy(g => g.Key);

    /// <summary>Whether the frames of a level are lit by the light of the bracket.</summary>
    public static bool IsLit(Level level) => level.Key.Role is FrameRole.Bracket or FrameRole.Metered;
}
