using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels.Variances;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>What pixels, rows and columns bring to the mean of a channel's dark region.</summary>
internal static class MeanVariance
{
    /// <summary>
    /// Standard uncertainties from which on row and column parts count in full, below that by degrees: of few lines they are
    /// uncertain, and a sharp limit would make the black's own uncertainty a matter of chance. Rows
    /// that differ by a fifth of the read noise lie at three on 32 lines, and are most of what black is off.
    /// </summary>
    private const double LinesCount = 2;

    /// <summary>The variance of a mean.</summary>
    /// <param name="levels">Dark levels of two frames or more.</param>
    /// <param name="parts">The variance parts that the mean is of: temporal ones of one frame's, fixed ones of every frame's.</param>
    /// <returns>
    /// The variance in DN², and the uncertainty that few lines leave in it: its square is twice their part's over their degrees
    /// of freedom. Lines run through all channels: those of all levels and channels serve, each level weighed by its own noise.
    /// </returns>
    public static Estimate Of(ObservedLevel[] levels, Func<LevelChannel, VarianceParts> parts)
    {
        double pixels = levels[0].Pixels;
        double rows = levels[0].Rows;
        double pixel = levels.Average(l => Math.Max(0, parts(l.Channel).PixelDn2)) / pixels;
        Estimate[] levelLines = [.. levels.Select(l => LinesOfMean([.. l.Level.Channels.Where(c => c.TemporalParts is not null).Select(parts)], rows, levels[0].Columns))];
        (double lines, double uncertainty, _) = levelLines.All(l => l.Variance > 0) ? Estimate.WeightedMean(levelLines) : levelLines[0];
        double shared = BlackMoments.ChannelsALine(levels[0].Level); // Of what lines vary by, these channels are one witness.
        double weight = uncertainty > 0 ? Math.Clamp(lines / uncertainty / LinesCount, 0, 1) : 1;
        return new Estimate(pixel + (weight * Math.Max(0, lines)), lines > 0 ? weight * uncertainty * Math.Sqrt(shared) : 0);
    }

    /// <summary>What the scarcer of rows and columns are worth: a variance to which they add rests on no less.</summary>
    /// <param name="level">A level of the channel.</param>
    public static double FewestLines(ObservedLevel level) =>
        Math.Max(1, Math.Min(level.Rows, level.Columns) / LineMeansVariance.DifferencesADegree);

    /// <summary>What rows and columns add to the variance of a level's mean, the channels' mean.</summary>
    private static Estimate LinesOfMean(VarianceParts[] channels, double rows, double columns) => new(
        channels.Average(p => (p.RowDn2 / rows) + (p.ColumnDn2 / columns)),
        Math.Sqrt(channels.Sum(p => Math.Pow(p.RowUncertaintyDn2 / rows, 2) + Math.Pow(p.ColumnUncertaintyDn2 / columns, 2))) / channels.Length);
}
