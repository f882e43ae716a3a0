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

    /// <summary>Spacing of codes in DN.</summary>
    public required double CodeStepDn { get; init; }

    /// <summary>Whether the dark noise is below half a step and the rounded normal was fitted.</summary>
    public bool IsBelowStep { get; init; }

    public BlackDrift BlackDrift { get; init; } = BlackDrift.None;

    public IReadOnlySet<LevelRecord> FitLevels { get; init; } = new HashSet<LevelRecord>();
}
