namespace SensorLab.Measurement.Levels;

/// <summary>How strongly a lamp pulses, by the bands that wander across the rows between a level's frames.</summary>
internal static class LampPulse
{
    /// <summary>Relative amplitude of a sine whose variance the bands have.</summary>
    /// <param name="bandDn2">Variance of the bands in DN².</param>
    /// <param name="darkBandDn2">The same of dark frames, which is the sensor's own; twice of it is taken off, since it is an estimate.</param>
    /// <param name="signalDn">Mean signal in DN above black.</param>
    /// <returns>0 where there is no signal, or where the sensor's own bands are all.</returns>
    public static double Amplitude(double bandDn2, double darkBandDn2, double signalDn) =>
        signalDn > 0 ? Math.Sqrt(2 * Math.Max(0, bandDn2 - (2 * darkBandDn2))) / signalDn : 0;

    /// <summary>The most that the light of two moments may lie apart, in EV: a sine's crest over its trough.</summary>
    /// <param name="amplitude">The pulse's relative amplitude.</param>
    /// <returns>Infinite where the lamp goes out between its pulses.</returns>
    public static double MostApartEv(double amplitude) => amplitude < 1 ? Math.Log2((1 + amplitude) / (1 - amplitude)) : double.PositiveInfinity;
}
