using SensorLab.Law;

namespace SensorLab.Measurement.Model;

/// <summary>Fixed pattern of a channel: variance = DSNU² + PRNU² · signal². Squares, since unbiased ones may be negative.</summary>
/// <param name="DsnuSquareDn2">DSNU² in DN².</param>
/// <param name="PrnuSquare">PRNU² as a share of the signal, squared.</param>
/// <param name="Covariance">Covariance of the two squares.</param>
public sealed record FixedPattern(Estimate DsnuSquareDn2, Estimate PrnuSquare, double Covariance)
{
    /// <summary>The pattern of means over some pixels each.</summary>
    /// <param name="pixels">Pixels of a mean, 1 or more.</param>
    public FixedPattern OfMeanOver(double pixels) => new(Over(DsnuSquareDn2, pixels), Over(PrnuSquare, pixels), Covariance / (pixels * pixels));

    /// <summary>The pattern with the sampling of its parts: what is true of the body, and not of these pixels.</summary>
    /// <param name="parts">The independent parts.</param>
    /// <returns>The same squares, their variances greater by 2·part²/count for each part, and what degrees of freedom that leaves.</returns>
    public FixedPattern WithSampling(IReadOnlyList<SampledPattern> parts) => this with
    {
        DsnuSquareDn2 = Widened(DsnuSquareDn2, [.. parts.Select(p => (p.DsnuSquareDn2, p.DarkCount))]),
        PrnuSquare = Widened(PrnuSquare, [.. parts.Select(p => (p.PrnuSquare, p.Count))]),
    };

    private static Estimate Over(Estimate square, double pixels) => new(square.Value / pixels, square.StandardUncertainty / pixels);

    private static Estimate Widened(Estimate square, IReadOnlyList<(double Part, double Count)> parts)
    {
        double[] sampling = [.. parts.Select(p => 2 * Math.Max(0, p.Part) * Math.Max(0, p.Part) / p.Count)];
        double variance = square.Variance + sampling.Sum();
        double fourths = sampling.Select((s, i) => s * s / parts[i].Count).Sum();
        return new Estimate(square.Value, Math.Sqrt(variance), fourths > 0 ? variance * variance / fourths : double.PositiveInfinity);
    }
}
