using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Noise;

/// <summary>How far a channel's response is from a straight line, in percent of the signal.</summary>
/// <param name="MeanPercent">EMVA 1288 R4's linearity error: the mean of the absolute deviations.</param>
/// <param name="LargestPercent">The largest absolute deviation.</param>
public sealed record LinearityError(Estimate MeanPercent, Estimate LargestPercent);
