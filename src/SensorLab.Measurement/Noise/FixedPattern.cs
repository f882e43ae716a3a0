using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Noise;

/// <summary>Fixed pattern of a channel: variance = DSNU² + PRNU² · signal². Squares, since unbiased ones may be negative.</summary>
/// <param name="DsnuSquareDn2">DSNU² in DN².</param>
/// <param name="PrnuSquare">PRNU² as a share of the signal, squared.</param>
/// <param name="Covariance">Covariance of the two squares.</param>
public sealed record FixedPattern(Estimate DsnuSquareDn2, Estimate PrnuSquare, double Covariance);
