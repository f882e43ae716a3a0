using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>pair-missing: a level of one frame gives a mean, saturation and linearity, never a variance.</summary>
/// <remarks>Metered frames and frames of other lights serve for their mean alone, and are owed no second frame.</remarks>
internal sealed class PairCheck : ISetCheck
{
    public IEnumerable<Finding> Examine(CheckedSet set)
    {
        foreach (IGrouping<int, Level> iso in set.LevelsByIso)
        {
            Level[] single = [.. iso.Where(l => l.Key.Role is FrameRole.Bracket or FrameRole.Dark && l.Frames.Count == 1)];
            if (single.Length > 0)
            {
                yield return SetFindings.Warning(
                    FindingCode.PairMissing,
                    single.SelectMany(l => l.Frames),
                    $"{SetFindings.Count(single.Length, "level")} at ISO {iso.Key.ToString(CultureInfo.InvariantCulture)} of one frame only: used for mean, saturation and linearity, not for noise.",
                    "Shoot two frames or more at every exposure, dark ones too.",
                    iso.Key);
            }
        }
    }
}
