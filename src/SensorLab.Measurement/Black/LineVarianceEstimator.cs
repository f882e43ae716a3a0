using SensorLab.Law;

namespace SensorLab.Measurement.Black;

/// <summary>The temporal variance that the pixels of a row (or column) share, from several levels.</summary>
/// <remarks>
/// A line's mean varies by the shared variance and by its pixels' own noise over their number. Weights come from that
/// model and not from the levels' own estimates: those would favour the levels that came out low.
/// </remarks>
internal static class LineVarianceEstimator
{
    private const int Iterations = 10;

    /// <summary>Estimates the shared variance.</summary>
    /// <param name="levels">
    /// Of each level: the shared variance, the variance that its pixels' noise brings to a line's mean, and the degrees of freedom.
    /// </param>
    /// <returns>The variance in DN², perhaps negative, its degrees of freedom those of the levels that it rests on (GUM, equation G.2b); 0 without certainty where there is no level.</returns>
    public static Estimate Of(IReadOnlyList<(double SharedDn2, double PixelsDn2, double DegreesOfFreedom)> levels)
    {
        if (levels.Count == 0)
        {
            return new Estimate(0, 0);
        }

        double shared = levels.Average(l => l.SharedDn2);
        double weights = 0;
        double fourths = 0;
        for (int i = 0; i < Iterations; i++)
        {
            weights = 0;
            fourths = 0;
            double sum = 0;
            foreach ((double own, double pixels, double degrees) in levels)
            {
                double total = pixels + Math.Max(0, shared);
                double weight = degrees / (2 * total * total);
                weights += weight;
                fourths += weight * weight / degrees;
                sum += weight * own;
            }

            shared = sum / weights;
        }

        return new Estimate(shared, 1 / Math.Sqrt(weights), weights * weights / fourths);
    }
}
