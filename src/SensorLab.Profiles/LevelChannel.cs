using System.Text.Json.Serialization;

namespace SensorLab.Profiles;

/// <summary>The statistics of one channel of a level; all of them in the region measured, black included.</summary>
public sealed record LevelChannel
{
    /// <summary>R, G1, G2, B or Y.</summary>
    public required string Name { get; init; }

    /// <summary>Photosites of the channel in the region; null where they are the level's <see cref="LevelRecord.PixelsPerChannel"/>.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public long? Pixels { get; init; }

    /// <summary>Mean of all frames in DN, black included.</summary>
    public required double MeanDn { get; init; }

    /// <summary>Standard uncertainty of the mean in DN: temporal noise and the sampling of the fixed pattern.</summary>
    public double MeanUncertaintyDn { get; init; }

    /// <summary>Mean of each frame in DN, in the order in which they were taken.</summary>
    public IReadOnlyList<double> FrameMeansDn { get; init => field = value ?? []; } = [];

    /// <summary>Mean where the spot meter looks, in DN; only for metered levels.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? SpotMeanDn { get; init; }

    /// <summary>Standard uncertainty of the spot's mean in DN.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? SpotMeanUncertaintyDn { get; init; }

    /// <summary>Temporal variance of a pixel in DN², row and column parts included; null for a level of one frame.</summary>
    public double? TemporalVarianceDn2 { get; init; }

    /// <summary>The parts of the temporal variance.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public VarianceParts? TemporalParts { get; init; }

    /// <summary>Fixed-pattern variance in DN², row and column parts included, shading removed; null for a level of one frame.</summary>
    public double? FixedPatternVarianceDn2 { get; init; }

    /// <summary>The parts of the fixed-pattern variance.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public VarianceParts? FixedPatternParts { get; init; }

    /// <summary>Variance in DN² of wide bands across the rows that wander between frames, taken out of the temporal variance; null where there are none.</summary>
    public double? BandVarianceDn2 { get; init; }

    /// <summary>How the temporal noise of neighbours goes together, over a sample of the region; null for a level of one frame.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public NeighbourCorrelation? NeighbourCorrelation { get; init; }

    /// <summary>Share of pixels at the highest code, where codes pile up there; 0 elsewhere.</summary>
    public double ClippedFraction { get; init; }

    /// <summary>Lowest code met.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? LowestCodeDn { get; init; }

    /// <summary>Highest code met.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public int? HighestCodeDn { get; init; }

    /// <summary>Mean spacing of codes in DN, 1 or more; a fraction where the maker multiplied codes by one.</summary>
    public double CodeStepDn { get; init => field = Math.Max(1, value); } = 1;

    /// <summary>Whether the level served the photon-transfer fit.</summary>
    public bool UsedInFit { get; init; }

    /// <summary>Code histogram where rounding or clipping matters; null elsewhere.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public CodeHistogram? Histogram { get; init; }
}
