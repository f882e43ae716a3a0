namespace SensorLab.Measurement.Codes;

/// <summary>A normal distribution as some places with their weights.</summary>
internal static class NormalNodes
{
    /// <summary>Standard deviations that the places reach to either side.</summary>
    public const double Reach = 4;

    private const int Count = 33;

    /// <summary>Weights of the places, their sum 1.</summary>
    private static readonly double[] Weights = Normalised([.. Enumerable.Range(0, Count).Select(i => Math.Exp(-Place(i) * Place(i) / 2))]);

    /// <summary>The places.</summary>
    /// <param name="mean">The distribution's mean.</param>
    /// <param name="variance">Its variance, 0 or more.</param>
    public static IEnumerable<(double Place, double Weight)> Of(double mean, double variance)
    {
        double deviation = Math.Sqrt(variance);
        return Weights.Select((weight, i) => (mean + (Place(i) * deviation), weight));
    }

    private static double Place(int node) => Reach * ((2.0 * node / (Count - 1)) - 1);

    private static double[] Normalised(double[] weights)
    {
        double sum = weights.Sum();
        return [.. weights.Select(w => w / sum)];
    }
}
