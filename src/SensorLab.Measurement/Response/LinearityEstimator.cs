using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Response;

/// <summary>The linearity error of a channel.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, linearity error: a straight line with offset is fitted to the signals that
/// <see cref="LinearitySeries"/> counts, relative deviations weighted alike. Exposures are the nominal ones, hence an inexact
/// shutter counts.
/// </remarks>
public static class LinearityEstimator
{
    /// <summary>Estimates the linearity error.</summary>
    /// <param name="lit">The channel's lit levels.</param>
    /// <param name="saturation">Where it saturates.</param>
    /// <param name="blackDn">Black level in DN.</param>
    /// <param name="blackDrift">How black moves from frame to frame; null where it stands still.</param>
    /// <returns>The error, or null where saturation is unknown or fewer than three levels lie in the range.</returns>
    public static LinearityError? Of(IReadOnlyList<ObservedLevel> lit, Saturation? saturation, double blackDn, BlackDrift? blackDrift = null)
    {
        if (saturation?.MeanDn is not { } plateau)
        {
            return null;
        }

        BlackDrift drift = blackDrift ?? BlackDrift.None;
        double full = plateau.Value - blackDn;
        ObservedLevel[][] series = [.. lit
            .Where(l => l.Level.Role == RoleName.Bracket)
            .GroupBy(l => (l.Level.LightStep, l.Level.ApertureFNumber))
            .Select(g => Counting([.. g], blackDn, full))
            .Where(g => g.Length > 0)];
        if (series.Length == 0)
        {
            return null;
        }

        return LinearityError.Of([.. series.SelectMany(g => LinearityDeviation.Of(g, blackDn, drift))], drift.DegreesOfFreedom);
    }

    private static ObservedLevel[] Counting(ObservedLevel[] levels, double blackDn, double full)
    {
        bool[] counting = LinearitySeries.Counting([.. levels.Select(l => (l.Exposure, l.Channel.MeanDn - blackDn))], full);
        return [.. levels.Where((_, i) => counting[i])];
    }
}
