namespace SensorLab.Profiles;

/// <summary>Where total SNR falls to a criterion.</summary>
public sealed record ShadowEnd
{
    /// <summary>The criterion: total SNR.</summary>
    public required double Snr { get; init; }

    /// <summary>Stops below middle grey for a single pixel; negative where the criterion is met only above middle grey.</summary>
    public Figure? PerPixel { get; init; }

    /// <summary>Stops from the shadow end to saturation; needs no meter.</summary>
    public Figure? SpanEv { get; init; }

    /// <summary>Stops below middle grey at the delivery size.</summary>
    public Figure? AtDelivery { get; init; }
}
