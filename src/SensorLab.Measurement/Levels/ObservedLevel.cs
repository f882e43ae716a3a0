using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Levels;

/// <summary>One channel of one level, and what it shares with the other channels.</summary>
/// <param name="Level">The level.</param>
/// <param name="Channel">Its statistics in the channel.</param>
public sealed record ObservedLevel(LevelRecord Level, LevelChannel Channel)
{
    /// <summary>Whether the level is a dark one.</summary>
    public bool IsDark => Level.Role == RoleName.Dark;

    /// <summary>What a dark level holds beyond the shortest ones, in DN; 0 without uncertainty for those, and for lit levels.</summary>
    internal Estimate DarkSignalDn { get; init; }

    /// <summary>Relative exposure in its light step: exposure time over the squared f-number, as far as it is known.</summary>
    public double Exposure => Level.ExposureSeconds / Math.Pow(Level.ApertureFNumber is > 0 and double f ? f : 1, 2);

    /// <summary>Rows of the region in the channel; those of a square one where the profile does not say.</summary>
    public double Rows => Level.RowsPerChannel ?? Math.Sqrt(Level.PixelsPerChannel);

    /// <summary>Photosites of the channel in the region.</summary>
    public long Pixels => Channel.Pixels ?? Level.PixelsPerChannel;

    /// <summary>Columns of the region that hold the channel.</summary>
    public double Columns => Level.ColumnsPerChannel ?? PixelsOfRow;

    /// <summary>Photosites of the channel in a row, on average.</summary>
    public double PixelsOfRow => Pixels / Rows;

    /// <summary>Photosites of the channel in a column, on average.</summary>
    public double PixelsOfColumn => Level.ColumnsPerChannel is { } columns ? (double)Pixels / columns : Rows;

    /// <summary>Whether every row and column holds all channels: what a line's photosites share is then noise or pattern of all of them.</summary>
    internal bool SharesLines => Level.ColumnsPerChannel is not null && Level.Channels.Count > 1;

    /// <summary>What rows and columns have of the variance of the level's mean, pattern included; 0 without two frames.</summary>
    internal double LinesShareOfMean
    {
        get
        {
            if (Channel is not { TemporalParts: { } temporal, FixedPatternParts: { } pattern })
            {
                return 0;
            }

            double frames = Level.Frames;
            double pixels = (Math.Max(0, pattern.PixelDn2) + (temporal.PixelDn2 / frames)) / Pixels;
            double lines = Math.Max(0, ((pattern.RowDn2 + (temporal.RowDn2 / frames)) / Rows) + LineShareOf(pattern.ColumnDn2 + (temporal.ColumnDn2 / frames)));
            return lines > 0 ? lines / (lines + pixels) : 0;
        }
    }

    /// <summary>Variance of one frame's mean by temporal noise alone, in DN²; null of a level of one frame.</summary>
    internal double? VarianceOfFrameMeanDn2 => Channel.TemporalParts is { } parts
        ? (parts.PixelDn2 / Pixels) + (Math.Max(0, parts.RowDn2) / Rows) + LineShareOf(Math.Max(0, parts.ColumnDn2))
        : null;

    /// <summary>Temporal noise of the level's mean in DN: pixels are the same in all levels.</summary>
    internal double NoiseOfMeanDn => VarianceOfFrameMeanDn2 is { } variance ? Math.Sqrt(variance / Level.Frames) : Channel.MeanUncertaintyDn;

    // Multiplied first where a profile gives rows alone: its bytes stay what they were.
    private double LineShareOf(double columnDn2) => Level.ColumnsPerChannel is { } columns ? columnDn2 / columns : columnDn2 * Rows / Pixels;

    /// <summary>The levels of one channel.</summary>
    /// <param name="levels">Levels of one ISO.</param>
    /// <param name="channel">The channel's name.</param>
    public static IReadOnlyList<ObservedLevel> Of(IEnumerable<LevelRecord> levels, string channel) =>
        [.. levels.Select(l => new ObservedLevel(l, l.Channels.First(c => c.Name == channel)))];
}
