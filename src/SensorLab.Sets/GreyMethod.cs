namespace SensorLab.Sets;

/// <summary>How middle grey is defined.</summary>
public enum GreyMethod
{
    /// <summary>By the metered frames.</summary>
    Metered,

    /// <summary>By ISO 12232's saturation-based speed: the first channel's saturation exposure / 7.8.</summary>
    Saturation,
}
