namespace SensorLab.Profiles.Placement;

/// <summary>What exposing so that the brightest tone reaches the clipping point would gain and cost.</summary>
public sealed record ClipExposure
{
    /// <summary>What the shadow tone gains in total SNR, as log2 of the ratio; negative where exposure must come down.</summary>
    public Figure? GainEv { get; init; }

    /// <summary>The exposure correction that every frame then needs in the converter: negative darkens.</summary>
    public Figure? CorrectionEv { get; init; }
}
