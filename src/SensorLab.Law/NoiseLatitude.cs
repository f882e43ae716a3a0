namespace SensorLab.Law;

/// <summary>The latitude that follows from a noise model: ratios of exposures, hence of signals of a straight response. NaN where it has no value.</summary>
public static class NoiseLatitude
{
    /// <summary>EV from middle grey up to saturation.</summary>
    /// <param name="model">The model.</param>
    public static double AboveEv(this NoiseModel model) => Math.Log2(model.SaturationLinearDn / model.GreyLinearDn);

    /// <summary>EV from middle grey up to where 0.1 % of pixels clip.</summary>
    /// <param name="model">The model.</param>
    public static double FirstClipEv(this NoiseModel model) => Math.Log2(model.Response.LinearOf(model.FirstClipSignalDn) / model.GreyLinearDn);

    /// <summary>EV from middle grey down to where total SNR of one pixel is a criterion.</summary>
    /// <param name="model">The model.</param>
    /// <param name="snr">The criterion, above 0.</param>
    public static double BelowEv(this NoiseModel model, double snr) => Math.Log2(model.GreyLinearDn / model.SignalAtSnr(snr));

    /// <summary>EV from where total SNR of one pixel is a criterion up to saturation: needs no meter.</summary>
    /// <param name="model">The model.</param>
    /// <param name="snr">The criterion, above 0.</param>
    public static double SpanEv(this NoiseModel model, double snr) => Math.Log2(model.SaturationLinearDn / model.SignalAtSnr(snr));
}
