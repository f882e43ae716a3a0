namespace SensorLab.Frames;

/// <summary>The black and white levels that a file declares: converters believe them, SensorLab measures.</summary>
/// <remarks>DNG 1.7, chapter 4: BlackLevel with its repeat pattern, BlackLevelDeltaH, BlackLevelDeltaV, WhiteLevel.</remarks>
public sealed record DeclaredLevels
{
    /// <summary>Declared black level by channel in DN: pattern and mean of the row and column deltas; empty where the file declares none.</summary>
    public IReadOnlyDictionary<SensorChannel, double> BlackDn { get; init; } = new Dictionary<SensorChannel, double>();

    /// <summary>Declared white level in DN, null where the file declares none.</summary>
    public double? WhiteDn { get; init; }
}
