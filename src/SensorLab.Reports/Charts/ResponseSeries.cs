using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>The response of an ISO's channels: signal against exposure, and how far each level is from a straight line.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear, linearity error: a line with offset through the signals that <see cref="LinearitySeries"/> counts.
/// </remarks>
internal static class ResponseSeries
{
    /// <summary>The points of all channels, in the profile's order, each in rising exposure.</summary>
    /// <param name="iso">The ISO.</param>
    public static IReadOnlyList<ResponsePoint> Of(IsoProfile iso) =>
    [
        .. from channel in iso.Channels
           where channel.BlackLevelDn?.Value is not null
           from point in OfChannel(iso, channel, channel.BlackLevelDn!.Value!.Value)
           select point,
    ];

    private static IEnumerable<ResponsePoint> OfChannel(IsoProfile iso, ChannelProfile channel, double blackDn)
    {
        var levels = iso.Levels
            .Where(level => level.Role == RoleName.Bracket && level.ExposureSeconds > 0)
            .SelectMany(level => level.Channels.Where(c => c.Name == channel.Name).Select(c => (Level: level, Channel: c, Signal: c.MeanDn - blackDn)))
            .ToArray();
        foreach (var series in levels.GroupBy(l => (l.Level.LightStep, l.Level.ApertureFNumber)))
        {
            var members = series.OrderBy(l => Exposure(l.Level)).ToArray();
            double offset = OffsetEv([.. members.Select(m => m.Level)]);
            bool[] counting = LinearitySeries.Counting([.. members.Select(m => (Exposure(m.Level), m.Signal))], channel.SaturationDn?.Value);
            WeightedLine? line = WeightedLine.Fit([.. members.Where((_, i) => counting[i]).Select(m => (Exposure(m.Level), m.Signal, 1 / (m.Signal * m.Signal)))]);
            foreach ((int index, var member) in members.Index())
            {
                double? expected = line?.Intercept + (line?.Slope * Exposure(member.Level));
                yield return new ResponsePoint(
                    channel.Name,
                    member.Level,
                    Math.Log2(Exposure(member.Level)) + offset,
                    member.Signal,
                    expected > 0 ? 100 * (member.Signal - expected) / expected : null,
                    expected > 0 ? 100 * member.Channel.MeanUncertaintyDn / expected.Value : 0,
                    counting[index]);
            }
        }
    }

    private static double Exposure(LevelRecord level) =>
        level.ExposureSeconds / Math.Pow(level.ApertureFNumber is > 0 and { } f ? f : 1, 2);

    // What brings the exposures of a series onto the EV axis: the middle level's own EV, which a clipped level has not.
    private static double OffsetEv(IReadOnlyList<LevelRecord> levels)
    {
        double[] offsets = [.. levels.Where(l => l.Ev is not null).Select(l => l.Ev!.Value - Math.Log2(Exposure(l))).Order()];
        return offsets.Length > 0 ? offsets[offsets.Length / 2] : 0;
    }
}
