using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>What the means of whole frames vary by.</summary>
internal static class BlackMoments
{
    /// <summary>How many channels share a line, and what is noise or pattern of it: of four, two and two where each has lines of its own, else all.</summary>
    /// <param name="level">A level.</param>
    public static double ChannelsALine(LevelRecord level) =>
        level.Channels.Count == 1 ? 1 : level.ColumnsPerChannel is null ? 2 : level.Channels.Count;

    /// <summary>Means of a level's frames, the channels' mean.</summary>
    public static double[] FrameMeans(LevelRecord level) =>
        [.. Enumerable.Range(0, level.Channels.Min(c => c.FrameMeansDn.Count)).Select(f => level.Channels.Average(c => c.FrameMeansDn[f]))];

    /// <summary>Variance of one such mean by temporal noise alone, in DN².</summary>
    /// <param name="level">A level of two frames or more.</param>
    public static double TemporalVariance(LevelRecord level)
    {
        double shared = ChannelsALine(level) / level.Channels.Count;
        double pixel = level.Channels.Average(c => c.TemporalParts!.PixelDn2 * (level.PixelsPerChannel / (double)(c.Pixels ?? level.PixelsPerChannel))) / level.PixelsPerChannel / level.Channels.Count;
        return pixel + Math.Max(0, shared * LineVariance(level));
    }

    /// <summary>Variance of one frame's mean in one channel by temporal noise alone, in DN².</summary>
    /// <param name="level">A level of two frames or more.</param>
    public static double TemporalVariance(ObservedLevel level) =>
        (level.Channel.TemporalParts!.PixelDn2 / level.Pixels) + Math.Max(0, LineVariance(level.Level));

    /// <summary>Whether a level has two frames or more, which tell its noise.</summary>
    public static bool IsPaired(LevelRecord level) => level.Channels.All(c => c.TemporalParts is not null);

    /// <summary>What rows and columns add to the variance of a frame's mean, the channels' mean.</summary>
    private static double LineVariance(LevelRecord level)
    {
        double pixels = level.PixelsPerChannel;
        double rows = level.RowsPerChannel ?? Math.Sqrt(pixels);
        VarianceParts[] parts = [.. level.Channels.Select(c => c.TemporalParts!)];
        return (parts.Average(p => p.RowDn2) / rows) + (level.ColumnsPerChannel is { } columns ? parts.Average(p => p.ColumnDn2) / columns : parts.Average(p => p.ColumnDn2) * rows / pixels);
    }
}
