namespace SensorLab.Measurement.Codes;

/// <summary>Covariances of what was fitted to dark codes.</summary>
/// <param name="MeanAndTemporalDn3">Of black level and temporal variance, in DN³.</param>
/// <param name="MeanAndPatternDn3">Of black level and pattern variance, in DN³.</param>
/// <param name="TemporalAndPatternDn4">Of temporal and pattern variance, in DN⁴.</param>
public readonly record struct RoundedCovariance(double MeanAndTemporalDn3, double MeanAndPatternDn3, double TemporalAndPatternDn4);
