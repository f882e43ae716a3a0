using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>What the means of whole frames vary by.</summary>
internal static class BlackMoments
{
    /// <summary>Channels of one row (or column) share what is noise of the row: of four channels, two and two.</summary>
    private const double SharedByTwoOfFour = 0.5;

    /// <summary>Means of a level's frames, the channels' mean.</summary>
    public static double[] FrameMeans(LevelRecord level) =>
        [.. Enumerable.Range(0, level.Channels.Min(c => c.FrameMeansDn.Count)).Select(f => level.Channels.Average(c => c.FrameMeansDn[f]))];

    /// <summary>Variance of one such mean by temporal noise alone, in DN².</summary>
    /// <param name="level">A level of two frames or more.</param>
    public static double TemporalVariance(LevelRecord level)
    {
        double shared = level.Channels.Count > 1 ? SharedByTwoOfFour : 1;
        double pixel = level.Channels.Average(c => c.TemporalParts!.PixelDn2) / level.PixelsPerChannel / level.Channels.Count;
        return pixel + Math.Max(0, shared * LineVariance(level));
    }

    /// <summary>Variance of one frame's mean in one channel by temporal noise alone, in DN².</summary>
    /// <param name="level">A level of two frames or more.</param>
    public static double TemporalVariance(ObservedLevel level) =>
        (level.Channel.TemporalParts!.PixelDn2 / level.Level.PixelsPerChannel) + Math.Max(0, LineVariance(level.Level));

    /// <summary>Whether a level has two frames or more, which tell its noise.</summary>
    public static bool IsPaired(LevelRecord level) => level.Channels.All(c => c.TemporalParts is not null);

    /// <summary>What rows and columns add to the variance of a frame's mean, the channels' mean.</summary>
    private static double LineVariance(LevelRecord level)
    {
        double pixels = level.PixelsPerChannel;
        double rows = level.RowsPerChannel ?? Math.Sqrt(pixels);
        VarianceParts[] parts = [.. level.Channels.Select(c => c.TemporalParts!)];
        return (parts.Average(p => p.RowDn2) / rows) + (parts.Average(p => p.ColumnDn2) * rows / pixels);
    }
}
