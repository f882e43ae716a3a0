using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Noise;

/// <summary>Fits DSNU² and PRNU² to fixed-pattern variances by weighted least squares.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, spatial non-uniformity. All levels see the same pixels, hence the sampling of the pattern does
/// not average out over levels: it is added to what the fit itself yields.
/// </remarks>
public static class FixedPatternEstimator
{
    /// <summary>Fits both squares.</summary>
    /// <param name="points">Dark and lit levels.</param>
    /// <param name="pixels">Pixels of the region: what the pattern is a sample of.</param>
    /// <returns>The fixed pattern, or null without a dark and a lit level.</returns>
    public static FixedPattern? Fit(IReadOnlyList<FixedPatternPoint> points, double pixels)
    {
        if (points.Count < 2)
        {
            return null;
        }

        double s00 = 0;
        double s01 = 0;
        double s11 = 0;
        double t0 = 0;
        double t1 = 0;
        foreach (FixedPatternPoint point in points)
        {
            double weight = 1 / Math.Pow(point.StandardUncertaintyDn2, 2);
            double square = point.SignalDn * point.SignalDn;
            s00 += weight;
            s01 += weight * square;
            s11 += weight * square * square;
            t0 += weight * point.VarianceDn2;
            t1 += weight * square * point.VarianceDn2;
        }

        double determinant = (s00 * s11) - (s01 * s01);
        if (!(determinant > 0) || !double.IsFinite(determinant))
        {
            return null;
        }

        double dsnu = ((s11 * t0) - (s01 * t1)) / determinant;
        double prnu = ((s00 * t1) - (s01 * t0)) / determinant;
        return new FixedPattern(
            WithSampling(dsnu, s11 / determinant, pixels),
            WithSampling(prnu, s00 / determinant, pixels),
            -s01 / determinant);
    }

    private static Estimate WithSampling(double square, double variance, double pixels) =>
        new(square, Math.Sqrt(variance + (2 * square * square / pixels)));
}
