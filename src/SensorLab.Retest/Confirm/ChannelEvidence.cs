using SensorLab.Law;

namespace SensorLab.Retest.Confirm;

/// <summary>What a job's frames show of a channel at an ISO; null where they show nothing.</summary>
public sealed record ChannelEvidence
{
    /// <summary>R, G1, G2, B or Y.</summary>
    public required string Name { get; init; }

    /// <summary>The black level that the files declare, in DN.</summary>
    public double? DeclaredBlackDn { get; init; }

    /// <summary>The white level that the files declare, in DN.</summary>
    public double? DeclaredWhiteDn { get; init; }

    /// <summary>Mean spacing of codes in DN, of everyday frames.</summary>
    public double? CodeStepDn { get; init; }

    /// <summary>The code at which values pile up.</summary>
    public int? PileCodeDn { get; init; }

    /// <summary>How the channel follows the light near its clip beside the middle of its range, over what the profile's response says: 1 where it does as it did.</summary>
    public Estimate? RatioNearClip { get; init; }

    /// <summary>Mean of the masked photosites in DN.</summary>
    public Estimate? MaskedMeanDn { get; init; }

    /// <summary>Standard deviation of the masked photosites in DN, fixed pattern and rounding included.</summary>
    public Estimate? MaskedNoiseDn { get; init; }

    /// <summary>Mean of the dark frames in DN.</summary>
    public Estimate? DarkMeanDn { get; init; }

    /// <summary>Temporal variance of a photosite in the dark frames in DN², rounding included.</summary>
    public Estimate? DarkVarianceDn2 { get; init; }

    /// <summary>Mean of lit, even frames in DN, black included.</summary>
    public Estimate? LitMeanDn { get; init; }

    /// <summary>Temporal variance of a photosite in the lit frames in DN².</summary>
    public Estimate? LitVarianceDn2 { get; init; }
}
