using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Noise;

/// <summary>Dark values as a normal distribution that was rounded to codes, its noise too small for rounding to be noise.</summary>
/// <param name="MeanDn">Black level in DN, a fraction of a code included; its uncertainty holds the sampling of DSNU.</param>
/// <param name="TemporalVarianceDn2">Temporal variance of a pixel before rounding, in DN².</param>
/// <param name="TotalVarianceDn2">Variance over frames and pixels before rounding, in DN².</param>
/// <param name="PatternVarianceDn2">DSNU² in DN²; unbiased, hence perhaps negative.</param>
/// <param name="Covariance">Covariance of the temporal and the pattern variance.</param>
public sealed record RoundedNormal(Estimate MeanDn, Estimate TemporalVarianceDn2, Estimate TotalVarianceDn2, Estimate PatternVarianceDn2, double Covariance);
