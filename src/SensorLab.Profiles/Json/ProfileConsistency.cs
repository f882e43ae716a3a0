using System.Globalization;
using SensorLab.Files;

namespace SensorLab.Profiles.Json;

/// <summary>What of a profile hangs together: no single value of it can be out of its domain, and yet nothing be meant by all.</summary>
internal static class ProfileConsistency
{
    /// <summary>The first fault in document order; null where there is none.</summary>
    public static DocumentFault? FirstFault(SensorProfile profile) =>
        profile.IsoProfiles.Select((iso, index) => OfIso(iso, string.Create(CultureInfo.InvariantCulture, $"isoProfiles[{index}]")))
            .Prepend(DoubledIn("isoProfiles", profile.IsoProfiles, iso => iso.Iso))
            .FirstOrDefault(fault => fault is not null);

    private static DocumentFault? OfIso(IsoProfile iso, string path)
    {
        HashSet<string> channels = [.. iso.Channels.Select(channel => channel.Name)];
        return DoubledIn($"{path}.channels", iso.Channels, channel => channel.Name)
            ?? iso.Levels.Select((level, index) => OfLevel(level, channels, string.Create(CultureInfo.InvariantCulture, $"{path}.levels[{index}]")))
                .FirstOrDefault(fault => fault is not null);
    }

    private static DocumentFault? OfLevel(LevelRecord level, HashSet<string> channels, string path) =>
        !channels.SetEquals(level.Channels.Select(channel => channel.Name)) || level.Channels.Count != channels.Count
            ? new DocumentFault($"{path}.channels", "are not the channels of its ISO")
            : level.RowsPerChannel > level.PixelsPerChannel
                ? new DocumentFault($"{path}.rowsPerChannel", "is more than its pixels")
            : level.ColumnsPerChannel > level.PixelsPerChannel
                ? new DocumentFault($"{path}.columnsPerChannel", "is more than its pixels")
                : level.Channels.Select((channel, index) => OfChannel(channel, string.Create(CultureInfo.InvariantCulture, $"{path}.channels[{index}]")))
                    .FirstOrDefault(fault => fault is not null);

    // A level of one frame has neither; one of two frames or more has both.
    private static DocumentFault? OfChannel(LevelChannel channel, string path) =>
        (channel.TemporalParts is null) != (channel.FixedPatternParts is null)
            ? new DocumentFault(path, "has only one of temporalParts and fixedPatternParts")
            : channel.LowestCodeDn > channel.HighestCodeDn
                ? new DocumentFault($"{path}.lowestCodeDn", "is above highestCodeDn")
                : channel.Histogram is { } codes && codes.Counts.All(count => count == 0)
                    ? new DocumentFault($"{path}.histogram.counts", "counts nothing")
                    : null;

    private static DocumentFault? DoubledIn<TItem, TKey>(string path, IEnumerable<TItem> items, Func<TItem, TKey> keyOf) =>
        items.GroupBy(keyOf).FirstOrDefault(alike => alike.Count() > 1) is { } doubled
            ? new DocumentFault(path, string.Create(CultureInfo.InvariantCulture, $"has {doubled.Key} twice"))
            : null;
}
