namespace SensorLab.Law;

/// <summary>Which levels of a bracket tell a sensor's linearity error.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, linearity error: signals between 5 % and 95 % of saturation, for each light step and aperture by
/// itself. A level far off the others was shot under another light and says nothing of the sensor.
/// </remarks>
internal static class LinearitySeries
{
    private const double LowestShare = 0.05;
    private const double HighestShare = 0.95;
    private const int FewestLevels = 3;

    /// <summary>
    /// Response for its exposure, in EV from the median level's, beyond which a level had another light: shutters are
    /// off by less, and below 95 % of saturation so is compression.
    /// </summary>
    private const double StrayEv = 0.3;

    /// <summary>Tells the levels of one series that count.</summary>
    /// <param name="levels">Relative exposure and signal in DN of each.</param>
    /// <param name="fullDn">Saturation signal in DN; null where it is not known.</param>
    /// <returns>For each level whether it counts; none where fewer than three do.</returns>
    public static bool[] Counting(IReadOnlyList<(double Exposure, double SignalDn)> levels, double? fullDn)
    {
        bool[] counting = [.. levels.Select(p => p.SignalDn >= LowestShare * fullDn && p.SignalDn <= HighestShare * fullDn)];
        double[] responses = [.. levels.Where((_, i) => counting[i]).Select(ResponseEv).Order()];
        if (responses.Length > 0)
        {
            double median = responses[responses.Length / 2];
            counting = [.. levels.Select((p, i) => counting[i] && Math.Abs(ResponseEv(p) - median) <= StrayEv)];
        }

        return counting.Count(c => c) >= FewestLevels ? counting : new bool[levels.Count];
    }

    private static double ResponseEv((double Exposure, double SignalDn) level) => Math.Log2(level.SignalDn / level.Exposure);
}
