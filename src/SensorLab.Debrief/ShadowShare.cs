namespace SensorLab.Debrief;

/// <summary>Share of a picture in its shadows, in percent.</summary>
/// <param name="Snr10">Where total SNR of a photosite is below 10: texture sinks.</param>
/// <param name="Snr4">Where it is below 4: tone sinks.</param>
public sealed record ShadowShare(double Snr10, double Snr4);
