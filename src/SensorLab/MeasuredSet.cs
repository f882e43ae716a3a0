using SensorLab.Pixels;
using SensorLab.Pixels.Field;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>A frame set with the statistics of every level that can be used.</summary>
/// <param name="Set">The frame set, without the frames that turned out unusable when they were read.</param>
/// <param name="Levels">Statistics of every level, in the set's order.</param>
/// <param name="Area">Where was measured.</param>
/// <param name="Hashes">SHA-256 of each file that could be read, by its path inside the set.</param>
internal sealed record MeasuredSet(
    FrameSet Set,
    IReadOnlyList<LevelStatistics> Levels,
    MeasurementArea Area,
    IReadOnlyDictionary<string, string> Hashes);
