namespace SensorLab.Measurement;

/// <summary>Shares of saturation between which signals serve for more than one thing.</summary>
internal static class SignalShare
{
    /// <summary>Up to which variances and responses are fitted, and lights compared: EMVA 1288 R4 fits the photon transfer up to 70 %. Above, the brightest pixels clip.</summary>
    public const double WellBelowClip = 0.7;
}
