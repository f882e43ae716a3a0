using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Noise;

/// <summary>The linearity error of a channel.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, linearity error: a straight line with offset is fitted to the signals between 5 % and 95 % of
/// saturation, relative deviations weighted alike. Exposures are the nominal ones, hence an inexact shutter counts.
/// </remarks>
public static class LinearityEstimator
{
    private const double LowestShare = 0.05;
    private const double HighestShare = 0.95;
    private const int FewestLevels = 3;

    /// <summary>Estimates the linearity error.</summary>
    /// <param name="lit">The channel's lit levels.</param>
    /// <param name="saturation">Where it saturates.</param>
    /// <param name="blackDn">Black level in DN.</param>
    /// <returns>The error, or null where saturation is unknown or fewer than three levels lie in the range.</returns>
    public static LinearityError? Of(IReadOnlyList<ChannelLevel> lit, Saturation? saturation, double blackDn)
    {
        if (saturation?.MeanDn is not { } plateau)
        {
            return null;
        }

        double full = plateau.Value - blackDn;
        ChannelLevel[][] series = [.. lit
            .Where(l => l.Level.Role == "bracket" && l.Channel.MeanDn - blackDn >= LowestShare * full && l.Channel.MeanDn - blackDn <= HighestShare * full)
            .GroupBy(l => (l.Level.LightStep, l.Level.ApertureFNumber))
            .Select(g => g.ToArray())
            .Where(g => g.Length >= FewestLevels)];
        if (series.Length == 0)
        {
            return null;
        }

        (double Deviation, double Uncertainty)[] deviations = [.. series.SelectMany(s => Deviations(s, blackDn))];
        (double Deviation, double Uncertainty) largest = deviations.MaxBy(d => Math.Abs(d.Deviation));
        double mean = deviations.Average(d => Math.Abs(d.Deviation));
        double uncertainty = Math.Sqrt(deviations.Sum(d => d.Uncertainty * d.Uncertainty)) / deviations.Length;
        return new LinearityError(new Estimate(100 * mean, 100 * uncertainty), new Estimate(100 * Math.Abs(largest.Deviation), 100 * largest.Uncertainty));
    }

    private static IEnumerable<(double Deviation, double Uncertainty)> Deviations(ChannelLevel[] levels, double blackDn)
    {
        double w = 0;
        double x = 0;
        double y = 0;
        double xx = 0;
        double xy = 0;
        foreach (ChannelLevel level in levels)
        {
            double signal = level.Channel.MeanDn - blackDn;
            double weight = 1 / (signal * signal);
            w += weight;
            x += weight * level.Exposure;
            y += weight * signal;
            xx += weight * level.Exposure * level.Exposure;
            xy += weight * level.Exposure * signal;
        }

        double slope = ((w * xy) - (x * y)) / ((w * xx) - (x * x));
        double offset = (y - (slope * x)) / w;
        foreach (ChannelLevel level in levels)
        {
            double signal = level.Channel.MeanDn - blackDn;
            double line = offset + (slope * level.Exposure);
            double temporal = Math.Sqrt((level.Channel.TemporalVarianceDn2 ?? 0) / ((double)level.Level.PixelsPerChannel * level.Level.Frames));
            yield return ((signal - line) / line, temporal / line);
        }
    }
}
