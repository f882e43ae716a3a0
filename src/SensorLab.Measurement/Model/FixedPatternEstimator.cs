using SensorLab.Law;

namespace SensorLab.Measurement.Model;

/// <summary>Fits DSNU² and PRNU² to fixed-pattern variances by weighted least squares.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, spatial non-uniformity. The uncertainty is the fit's alone: all levels see the same pixels, hence
/// the sampling of the pattern (<see cref="FixedPattern.WithSampling"/>) does not average out over levels.
/// </remarks>
public static class FixedPatternEstimator
{
    /// <summary>Fits both squares.</summary>
    /// <param name="points">Dark and lit levels.</param>
    /// <returns>The fixed pattern, or null without a dark and a lit level.</returns>
    public static FixedPattern? Fit(IReadOnlyList<FixedPatternPoint> points) => Line(points) is { } line
        ? new FixedPattern(
            new Estimate(line.Intercept, Math.Sqrt(line.InterceptVariance)),
            new Estimate(line.Slope, Math.Sqrt(line.SlopeVariance)),
            line.Covariance)
        : null;

    /// <summary>The line of variance against squared signal.</summary>
    internal static WeightedLine? Line(IReadOnlyList<FixedPatternPoint> points) =>
        WeightedLine.Fit([.. points.Select(p => (p.SignalDn * p.SignalDn, p.VarianceDn2, 1 / (p.StandardUncertaintyDn2 * p.StandardUncertaintyDn2)))]);
}
