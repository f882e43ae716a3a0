using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>What a channel's levels determine before middle grey is known.</summary>
internal sealed record ChannelModel
{
    public required string Name { get; init; }

    public required IReadOnlyList<ObservedLevel> Levels { get; init; }

    public required NoiseModel Noise { get; init; }

    /// <summary>Null without lit levels.</summary>
    public Saturation? Saturation { get; init; }

    public PhotonTransfer? PhotonTransfer { get; init; }

    /// <summary>By how much an excess of noise of 1 (<see cref="ExcessNoise"/>) moves the gain, in DN/e⁻.</summary>
    public double GainShiftOfExcess { get; init; }

    /// <summary>How many times as far as chance lets them its levels scatter about the law of the pixels' pattern; 1 where it may be chance.</summary>
    public double PatternScatter { get; init; } = 1;

    /// <summary>Spacing of codes in DN.</summary>
    public required double CodeStepDn { get; init; }

    /// <summary>Whether the dark noise is below half a step and the rounded normal was fitted.</summary>
    public bool IsBelowStep { get; init; }

    /// <summary>Temporal variance of dark pixels in DN² that coarse codes alone tell, rounding's included; null where it is told by dark levels' own variance, or not.</summary>
    public Estimate? UnlitByCodesDn2 { get; init; }

    /// <summary>By how much the temporal variance of rows and of columns may be off in DN², where dark levels contradict each other.</summary>
    public (double RowDn2, double ColumnDn2) LineDoubts { get; init; }

    /// <summary>The noise without light by its two witnesses; null where one of them is missing.</summary>
    public UnlitNoise? Unlit { get; init; }

    public BlackDrift BlackDrift { get; init; } = BlackDrift.None;

    public IReadOnlySet<LevelRecord> FitLevels { get; init; } = new HashSet<LevelRecord>();
}
