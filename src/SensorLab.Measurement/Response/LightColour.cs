using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Response;

/// <summary>How a light's colour may change while a set is shot, which channels of different colours see and no response has done.</summary>
/// <param name="Drift">Standard deviation of what a channel gains on the others from the shortest exposures to the longest, and from one series of levels to the next, as a natural logarithm.</param>
/// <param name="Scatter">Standard deviation from level to level.</param>
/// <param name="Prior">How likely it is before levels are asked.</param>
internal readonly record struct LightColour(double Drift, double Scatter, double Prior)
{
    /// <summary>What a light's colour changes by where it drifts: daylight over an hour; most lamps by less.</summary>
    private const double LargestDrift = 0.1;

    /// <summary>What no light does: channels that move against each other by more see something else.</summary>
    public const double LargestTrend = 3 * LargestDrift;

    /// <summary>As rare as a response with a fault, so that levels alone decide between them.</summary>
    private const double SteadyPrior = 1 - 1e-4;

    private static readonly double[] Scatters = [0, 0.0003, 0.001, 0.003, 0.01, 0.03];

    /// <summary>A colour that stays.</summary>
    public static LightColour Steady { get; } = new(0, 0, SteadyPrior);

    /// <summary>Colours that change, each as likely as the others.</summary>
    public static IReadOnlyList<LightColour> Changing { get; } =
    [
        .. from drift in new[] { 0, LargestDrift }
           from scatter in Scatters
           where drift > 0 || scatter > 0
           select new LightColour(drift, scatter, (1 - SteadyPrior) / ((2 * Scatters.Length) - 1)),
    ];

    /// <summary>Covariance of what it does to levels.</summary>
    /// <param name="points">A point for each channel of each level.</param>
    /// <remarks>
    /// A channel's drift over a series is a step from the other series, a trend along the exposures, in whose order brackets are
    /// shot, and a curve, of one standard deviation each.
    /// </remarks>
    public Matrix<double> Covariance(IReadOnlyList<LitPoint> points)
    {
        double[] places = Places(points);
        (double drift, double scatter) = (Drift * Drift, Scatter * Scatter);
        return Matrix<double>.Build.Dense(places.Length, places.Length, (i, j) =>
        {
            double together = places[i] * places[j];
            return (i == j ? scatter : 0) + ((points[i].Channel, points[i].Series) == (points[j].Channel, points[j].Series) ? drift * (1 + together + (together * together)) : 0);
        });
    }

    /// <summary>What channels gained on each other from the shortest exposures to the longest, at the most, as a natural logarithm.</summary>
    /// <param name="points">A point for each channel of each level; the longest series tells.</param>
    /// <param name="logs">Natural logarithm of each point's signal.</param>
    public static double Trend(IReadOnlyList<LitPoint> points, double[] logs)
    {
        double[] places = Places(points);
        string longest = points.GroupBy(s => s.Series).MaxBy(g => g.Count())!.Key;
        ILookup<int, int> channels = Enumerable.Range(0, logs.Length).Where(i => points[i].Series == longest).ToLookup(i => points[i].Channel);
        return
        (
            from first in channels
            from second in channels
            let pairs = first.Join(second, i => points[i].Level, j => points[j].Level, (i, j) => (places[i], logs[i] - logs[j], 1.0))
            select WeightedLine.Fit([.. pairs])?.Slope ?? 0
        ).Max();
    }

    /// <summary>Places between the shortest exposure and the longest, from -1/2 to 1/2.</summary>
    private static double[] Places(IReadOnlyList<LitPoint> points)
    {
        (double shortest, double longest) = (points.Min(p => p.LogExposure), points.Max(p => p.LogExposure));
        return [.. points.Select(p => longest > shortest ? ((p.LogExposure - shortest) / (longest - shortest)) - 0.5 : 0)];
    }
}

/// <summary>One channel of a level.</summary>
/// <param name="Channel">Which channel.</param>
/// <param name="Level">Which level.</param>
/// <param name="Series">The levels that were shot together: by role and light step.</param>
/// <param name="LogExposure">Natural logarithm of the nominal exposure.</param>
internal readonly record struct LitPoint(int Channel, int Level, string Series, double LogExposure)
{
    /// <summary>A channel of an observed level.</summary>
    /// <param name="channel">Which channel.</param>
    /// <param name="level">Which level.</param>
    /// <param name="observed">The level.</param>
    public static LitPoint Of(int channel, int level, ObservedLevel observed) =>
        new(channel, level, $"{observed.Level.Role} {observed.Level.LightStep}", Math.Log(observed.Exposure));
}
