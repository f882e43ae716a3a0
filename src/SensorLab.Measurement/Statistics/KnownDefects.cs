using SensorLab.Frames;

namespace SensorLab.Measurement.Statistics;

/// <summary>Defective pixels that dark frames showed: what stands out of the dark is drowned by the light's own noise, and still there.</summary>
public sealed class KnownDefects
{
    private readonly Dictionary<SensorChannel, int[]> _sites;

    private KnownDefects(Dictionary<SensorChannel, int[]> sites) => _sites = sites;

    /// <summary>None.</summary>
    public static KnownDefects None { get; } = new([]);

    /// <summary>What the dark levels of an ISO showed.</summary>
    /// <param name="darks">Statistics of dark levels over one region.</param>
    public static KnownDefects Of(IEnumerable<LevelStatistics> darks) => new(darks
        .SelectMany(d => d.Channels)
        .GroupBy(c => c.Channel)
        .ToDictionary(g => g.Key, g => g.SelectMany(c => c.DefectSites).Distinct().Order().ToArray()));

    /// <summary>Sites of a channel (row × columns + column of its plane in the region), rising.</summary>
    internal IReadOnlyList<int> Of(SensorChannel channel) => _sites.TryGetValue(channel, out int[]? sites) ? sites : [];
}
