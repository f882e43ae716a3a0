using MathNet.Numerics.Distributions;
using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Noise;

/// <summary>Dark values as a normal distribution that was rounded to codes, its noise too small for rounding to be noise.</summary>
/// <param name="MeanDn">Black level in DN, a fraction of a code included; its uncertainty holds the sampling of DSNU.</param>
/// <param name="TemporalVarianceDn2">Temporal variance of a pixel before rounding, in DN².</param>
/// <param name="TotalVarianceDn2">Variance over frames and pixels before rounding, in DN².</param>
/// <param name="PatternVarianceDn2">DSNU² in DN²; unbiased, hence perhaps negative.</param>
/// <param name="Covariance">How they go together.</param>
public sealed record RoundedNormal(Estimate MeanDn, Estimate TemporalVarianceDn2, Estimate TotalVarianceDn2, Estimate PatternVarianceDn2, RoundedCovariance Covariance)
{
    /// <summary>The same, from codes counted in steps to DN.</summary>
    /// <param name="firstCodeDn">The code that counts as 0.</param>
    /// <param name="stepDn">Spacing of codes in DN.</param>
    public RoundedNormal InDn(double firstCodeDn, double stepDn)
    {
        double square = stepDn * stepDn;
        Estimate Scaled(Estimate estimate) => new(square * estimate.Value, square * estimate.StandardUncertainty, estimate.DegreesOfFreedom);
        return new RoundedNormal(
            new Estimate(firstCodeDn + (stepDn * MeanDn.Value), stepDn * MeanDn.StandardUncertainty),
            Scaled(TemporalVarianceDn2),
            Scaled(TotalVarianceDn2),
            Scaled(PatternVarianceDn2),
            new RoundedCovariance(square * stepDn * Covariance.MeanAndTemporalDn3, square * stepDn * Covariance.MeanAndPatternDn3, square * square * Covariance.TemporalAndPatternDn4));
    }

    /// <summary>By how much the mean recorded value moves where all values move by 1 DN: the share that is not cut off.</summary>
    /// <param name="floorDn">The code at which values are cut off: the sum of the density over the edges between codes, by the midpoint rule.</param>
    public double ResponsiveShare(double floorDn) =>
        1 - Normal.CDF(MeanDn.Value, Math.Sqrt(TotalVarianceDn2.Value), floorDn);

    /// <summary>The same with a part of the pattern variance that was temporal after all: what pixels of a row or column share.</summary>
    /// <param name="linesDn2">Temporal variance of rows and columns in DN².</param>
    public RoundedNormal WithoutLines(Estimate linesDn2) => this with
    {
        PatternVarianceDn2 = new Estimate(PatternVarianceDn2.Value - linesDn2.Value, double.Hypot(PatternVarianceDn2.StandardUncertainty, linesDn2.StandardUncertainty)),
    };
}
