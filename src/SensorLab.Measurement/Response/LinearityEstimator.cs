using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Response;

/// <summary>The linearity error of a channel.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, linearity error: a straight line with offset is fitted to the signals between 5 % and 95 % of
/// saturation, relative deviations weighted alike. Exposures are the nominal ones, hence an inexact shutter counts; a
/// level far off the others was shot under another light and says nothing of the sensor.
/// </remarks>
public static class LinearityEstimator
{
    private const double LowestShare = 0.05;
    private const double HighestShare = 0.95;
    private const int FewestLevels = 3;

    /// <summary>
    /// Response for its exposure, in EV from the median level's, beyond which a level had another light: shutters are
    /// off by less, and below 95 % of saturation so is compression.
    /// </summary>
    private const double StrayEv = 0.3;

    /// <summary>Estimates the linearity error.</summary>
    /// <param name="lit">The channel's lit levels.</param>
    /// <param name="saturation">Where it saturates.</param>
    /// <param name="blackDn">Black level in DN.</param>
    /// <param name="blackDrift">How black moves from frame to frame; null where it stands still.</param>
    /// <returns>The error, or null where saturation is unknown or fewer than three levels lie in the range.</returns>
    public static LinearityError? Of(IReadOnlyList<ChannelLevel> lit, Saturation? saturation, double blackDn, BlackDrift? blackDrift = null)
    {
        if (saturation?.MeanDn is not { } plateau)
        {
            return null;
        }

        BlackDrift drift = blackDrift ?? BlackDrift.None;
        double full = plateau.Value - blackDn;
        ChannelLevel[][] series = [.. lit
            .Where(l => l.Level.Role == RoleName.Bracket && l.Channel.MeanDn - blackDn >= LowestShare * full && l.Channel.MeanDn - blackDn <= HighestShare * full)
            .GroupBy(l => (l.Level.LightStep, l.Level.ApertureFNumber))
            .Select(g => WithoutStrays([.. g], blackDn))
            .Where(g => g.Length >= FewestLevels)];
        if (series.Length == 0)
        {
            return null;
        }

        return LinearityError.Of([.. series.SelectMany(g => LinearityDeviation.Of(g, blackDn, drift))], drift.DegreesOfFreedom);
    }

    private static ChannelLevel[] WithoutStrays(ChannelLevel[] levels, double blackDn)
    {
        double[] responses = [.. levels.Select(l => Math.Log2((l.Channel.MeanDn - blackDn) / l.Exposure))];
        double median = responses.Order().ElementAt(responses.Length / 2);
        return [.. levels.Where((_, i) => Math.Abs(responses[i] - median) <= StrayEv)];
    }
}
