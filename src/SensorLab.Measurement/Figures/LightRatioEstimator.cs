using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>How a light moves the channels against green, from metered frames under it.</summary>
public static class LightRatioEstimator
{
    /// <summary>The ratios of every light in the levels.</summary>
    /// <param name="isoProfiles">Finished ISO profiles, their levels of role light included.</param>
    /// <returns>One entry a light: EV of each channel against the pooled greens, relative to the metered light.</returns>
    public static IReadOnlyList<LightRatios> Of(IReadOnlyList<IsoProfile> isoProfiles) =>
    [
        .. isoProfiles
            .SelectMany(p => p.Levels.Where(l => l is { Role: RoleName.Light, Light: not null }).Select(l => (Profile: p, Level: l)))
            .GroupBy(p => p.Level.Light!)
            .OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new LightRatios(g.Key, Ratios(g.First().Profile, g.First().Level))),
    ];

    private static SortedDictionary<string, double> Ratios(IsoProfile profile, LevelRecord level)
    {
        var ev = new Dictionary<string, double>();
        foreach (ChannelProfile channel in profile.Channels)
        {
            double signal = level.Channels.First(c => c.Name == channel.Name).MeanDn - channel.BlackLevelDn!.Value!.Value;
            if (signal > 0 && channel.MiddleGreyDn?.Value is double grey)
            {
                ev[channel.Name] = Math.Log2(signal / grey);
            }
        }

        double[] greens = [.. ev.Where(e => ChannelName.IsPooled(e.Key)).Select(e => e.Value)];
        double green = greens.Length == 0 ? 0 : greens.Average();
        return new SortedDictionary<string, double>(ev.ToDictionary(e => e.Key, e => e.Value - green), StringComparer.Ordinal);
    }
}
