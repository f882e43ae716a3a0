using SensorLab.Law;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>How the noise of neighbours goes together, or apart, as some levels show it.</summary>
/// <remarks>
/// A kernel that takes w from each of its four neighbours leaves them with a correlation of 2w(1 − 4w) over
/// (1 − 4w)² + 4w². Where w is below 0 it moves each away from its neighbours, and their noise goes apart.
/// </remarks>
/// <param name="Correlation">Correlation of neighbours.</param>
/// <param name="Deviations">How many standard deviations it lies away from none.</param>
/// <param name="Neighbours">How many neighbours a site has.</param>
/// <param name="Levels">Where it shows.</param>
internal sealed record Filtering(double Correlation, double Deviations, int Neighbours, IEnumerable<EvidenceLevel> Levels)
{
    /// <summary>Whether it is there beyond chance.</summary>
    public bool IsSure => Deviations > Significance.Neighbours;

    /// <summary>Whether neighbours of the other direction, or group, go together as well.</summary>
    public bool IsThere => !IsSharpened && Deviations > Significance.OtherDirection;

    /// <summary>Whether neighbours go apart and not together.</summary>
    public bool IsSharpened => Correlation < 0;

    /// <summary>What is missing in the variance; below 0 where it is too large.</summary>
    public double Loss => Neighbours * Correlation;

    /// <summary>What a photosite takes from its neighbours.</summary>
    public double Share => ShareTaken(Correlation, Neighbours);

    /// <summary>The mean correlation of some samples.</summary>
    /// <param name="samples">What the levels tell.</param>
    /// <param name="expected">What correlation is expected of each, in any unit: it weighs them beside their uncertainty.</param>
    /// <param name="neighbours">How many neighbours a site has.</param>
    public static Filtering Of(FilteringSample[] samples, Func<FilteringSample, double> expected, int neighbours)
    {
        double weights = 0;
        double variance = 0;
        double sum = 0;
        foreach (FilteringSample sample in samples)
        {
            double weight = expected(sample) / sample.Correlation.Variance;
            weights += weight;
            variance += weight * weight * sample.Correlation.Variance;
            sum += weight * sample.Correlation.Value;
        }

        return new Filtering(sum / weights, Math.Abs(sum) / Math.Sqrt(variance), neighbours, samples.Select(s => s.Level));
    }

    /// <summary>The share that a photosite takes from its neighbours' mean to make a correlation, by bisection; below 0 where it moves away from it.</summary>
    private static double ShareTaken(double correlation, int neighbours)
    {
        double low = -0.8;
        double high = 0.8;
        for (int i = 0; i < 40; i++)
        {
            double share = (low + high) / 2;
            double own = 1 - share;
            double made = 2 * share / neighbours * own / ((own * own) + (share * share / neighbours));
            (low, high) = made < correlation ? (share, high) : (low, share);
        }

        return (low + high) / 2;
    }
}

/// <summary>What one level tells of a channel, or of all of them together.</summary>
/// <param name="Level">The level.</param>
/// <param name="NoiseSteps">Temporal noise in code steps.</param>
/// <param name="Correlation">How neighbours' noise goes together.</param>
internal sealed record FilteringSample(EvidenceLevel Level, double NoiseSteps, Estimate Correlation);
