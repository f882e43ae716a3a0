using SensorLab.Frames;

namespace SensorLab.Pixels;

/// <summary>What an ISO's dark frames tell its lit ones: where black lies, and which pixels are defective, which the light's own noise would drown.</summary>
public sealed class DarkReference
{
    private readonly Dictionary<SensorChannel, (double BlackDn, int[] Defects)> _channels;

    private DarkReference(Dictionary<SensorChannel, (double BlackDn, int[] Defects)> channels) => _channels = channels;

    /// <summary>Nothing is known; black is where the files say.</summary>
    public static DarkReference None { get; } = new([]);

    /// <summary>What the dark levels of an ISO showed.</summary>
    /// <param name="darks">Statistics of dark levels over one region.</param>
    public static DarkReference Of(IEnumerable<LevelStatistics> darks) => new(darks
        .SelectMany(d => d.Channels)
        .GroupBy(c => c.Channel)
        .ToDictionary(g => g.Key, g => (
            g.Sum(c => c.FrameMeansDn.Sum()) / g.Sum(c => c.FrameMeansDn.Count),
            g.SelectMany(c => c.DefectSites).Distinct().Order().ToArray())));

    /// <summary>Black of a channel in DN; null where no dark frame tells.</summary>
    internal double? BlackDnOf(SensorChannel channel) => _channels.TryGetValue(channel, out (double BlackDn, int[] Defects) own) ? own.BlackDn : null;

    /// <summary>Defective sites of a channel, as <see cref="ChannelStatistics.DefectSites"/> counts them, rising.</summary>
    internal IReadOnlyList<int> DefectsOf(SensorChannel channel) => _channels.TryGetValue(channel, out (double BlackDn, int[] Defects) own) ? own.Defects : [];
}
