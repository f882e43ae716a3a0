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

        return LinearityError.Of([.. series.SelectMany(g => LinearityDeviation.Of(g, blackDn))]);
    }
}
