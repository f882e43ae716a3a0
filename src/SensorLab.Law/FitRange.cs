namespace SensorLab.Law;

/// <summary>Up to where levels serve the fits of the noise law.</summary>
public static class FitRange
{
    /// <summary>Share of saturation above which a level leaves them: towards the full well variance falls off before the mean does.</summary>
    /// <remarks>EMVA 1288 R4 Linear, photon transfer method: the line is fitted up to 70 % of saturation.</remarks>
    public const double HighestShare = 0.7;
}
