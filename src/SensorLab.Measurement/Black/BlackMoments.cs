using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>What the channels of dark levels have in common: black drifts, and dark signal grows, in all of them at once.</summary>
/// <remarks>
/// Decisions that change every channel's black are made on the channels' mean, which has half a channel's noise: one
/// channel's accident decides nothing, and all channels are treated alike.
/// </remarks>
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
    public static double TemporalVariance(ChannelLevel level) =>
        (level.Channel.TemporalParts!.PixelDn2 / level.Level.PixelsPerChannel) + Math.Max(0, LineVariance(level.Level));

    /// <summary>How the frame means of some levels scatter.</summary>
    /// <param name="levels">Dark levels of one black.</param>
    /// <returns>Null where there are no two frames, or no level of two.</returns>
    public static BlackScatter? Scatter(IReadOnlyList<LevelRecord> levels)
    {
        LevelRecord[] paired = [.. levels.Where(l => l.Channels.All(c => c.TemporalParts is not null))];
        double[] means = [.. levels.SelectMany(FrameMeans)];
        if (paired.Length == 0 || means.Length < 2)
        {
            return null;
        }

        double temporal = paired.Average(TemporalVariance);
        double mean = means.Average();
        double squares = means.Sum(m => (m - mean) * (m - mean));
        int degrees = means.Length - 1;
        return new BlackScatter(means.Max() - means.Min(), means.Length, Math.Max(0, (squares / degrees) - temporal), ChiSquareTest.Deviations(squares / temporal, degrees));
    }

    /// <summary>What rows and columns add to the variance of a frame's mean, the channels' mean.</summary>
    private static double LineVariance(LevelRecord level)
    {
        double pixels = level.PixelsPerChannel;
        double rows = level.RowsPerChannel ?? Math.Sqrt(pixels);
        VarianceParts[] parts = [.. level.Channels.Select(c => c.TemporalParts!)];
        return (parts.Average(p => p.RowDn2) / rows) + (parts.Average(p => p.ColumnDn2) * rows / pixels);
    }
}
