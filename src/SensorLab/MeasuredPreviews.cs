using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>What the previews of a set show.</summary>
/// <param name="ByLevel">The codes of each level that has previews.</param>
/// <param name="Findings">Why others have none.</param>
internal sealed record MeasuredPreviews(IReadOnlyDictionary<Level, IReadOnlyList<PreviewCodes>> ByLevel, IReadOnlyList<Finding> Findings)
{
    /// <summary>A level's record with what its previews show.</summary>
    public LevelRecord Completed(Level level, LevelRecord record) =>
        ByLevel.TryGetValue(level, out IReadOnlyList<PreviewCodes>? codes) ? record with { PreviewCodes = codes } : record;
}
