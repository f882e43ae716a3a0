namespace SensorLab.Law;

/// <summary>Shares of saturation, and of another channel's signal, up to which signals serve for more than one thing.</summary>
internal static class SignalShare
{
    /// <summary>Up to which variances and responses are fitted, and lights compared: EMVA 1288 R4 fits the photon transfer up to 70 %. Above, the brightest pixels clip.</summary>
    public const double WellBelowClip = 0.7;

    /// <summary>A channel's sensitivity over another's above which the two do not tell what they share, light and response, from what is their own.</summary>
    public const double DistinctSensitivity = 0.85;

    /// <summary>Whether channels differ enough to tell what they share from what is their own.</summary>
    /// <param name="sensitivities">Sensitivity of each channel, or its signal under one light, in any unit; one or more.</param>
    public static bool AreDistinct(IReadOnlyCollection<double> sensitivities) => sensitivities.Min() < DistinctSensitivity * sensitivities.Max();
}
