using SensorLab.Law;
using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Pixels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>The black level of a channel: the mean of its dark frames, of the short ones where dark signal grows with exposure.</summary>
public static class BlackLevelEstimator
{
    /// <summary>Standard deviations by which levels may differ beside their frames before frames are no independent witnesses.</summary>
    private const double ScatterThreshold = 4;

    /// <summary>
    /// Standard uncertainties from which on row and column parts count in full, below that by degrees: of few lines they are
    /// uncertain, and a sharp limit would make the black's own uncertainty a matter of chance. Rows
    /// that differ by a fifth of the read noise lie at three on 32 lines, and are most of what black is off.
    /// </summary>
    private const double LinesCount = 2;

    /// <summary>Of four channels two share a line and its pattern: of what lines vary by they are one witness.</summary>
    private const double ChannelsALine = 2;

    /// <summary>Estimates the black level.</summary>
    /// <param name="darks">The channel's dark levels, one or more.</param>
    /// <returns>Mean in DN; the uncertainty covers temporal noise, drift between frames and the sampling of DSNU.</returns>
    public static Estimate Of(IReadOnlyList<ChannelLevel> darks)
    {
        (IReadOnlyList<ChannelLevel> shortDarks, double weight) = DarkSignal.Short(darks);
        Estimate all = OfUnlit(darks, darks);
        if (weight == 0)
        {
            return all;
        }

        // One of the two it is, hence the variance of their mixture; but half of what they lie apart is chance, which each has in its own.
        Estimate unlit = OfUnlit(shortDarks, darks);
        double apart = MeanOfChannels(shortDarks) - MeanOfChannels(darks);
        double variance = all.Variance + (weight * (unlit.Variance - all.Variance)) + (weight * (1 - weight) * apart * apart / 2);
        return new Estimate(all.Value + (weight * (unlit.Value - all.Value)), Math.Sqrt(variance), (weight < 0.5 ? all : unlit).DegreesOfFreedom);
    }

    private static double MeanOfChannels(IReadOnlyList<ChannelLevel> darks) => darks.SelectMany(d => BlackMoments.FrameMeans(d.Level)).Average();

    private static Estimate OfUnlit(IReadOnlyList<ChannelLevel> darks, IReadOnlyList<ChannelLevel> all)
    {
        double[] means = [.. darks.SelectMany(d => d.Channel.FrameMeansDn)];
        double mean = means.Average();
        ChannelLevel[] paired = [.. darks.Where(d => d.Channel.TemporalParts is not null)];
        if (paired.Length == 0)
        {
            return new Estimate(mean, darks.Max(d => d.Channel.MeanUncertaintyDn));
        }

        ChannelLevel[] withLines = [.. all.Where(d => d.Channel.TemporalParts is not null)];
        Estimate temporal = VarianceOfMean(paired, withLines, c => c.TemporalParts!);
        Estimate pattern = VarianceOfMean(paired, withLines, c => c.FixedPatternParts!);
        BlackScatter? scatter = BlackMoments.Scatter([.. darks.Select(d => d.Level)]);
        bool drifts = scatter is { IsDrift: true };
        double frames = (temporal.Value + (drifts ? scatter!.ExcessDn2 : 0)) / means.Length;
        double levels = drifts ? LevelVariance(darks) : 0;
        double variance = pattern.Value + Math.Max(frames, levels);
        double ofFrames = drifts ? frames * frames / (means.Length - 1) : temporal.Variance / (2.0 * means.Length * means.Length);
        double fourths = (pattern.Variance / 2) + (frames >= levels ? ofFrames : 0);
        double fewest = drifts ? means.Length - 1 : FewestLines(paired[0]);
        return new Estimate(mean, Math.Sqrt(variance), fourths > 0 ? Math.Max(variance * variance / fourths, fewest) : double.PositiveInfinity);
    }

    /// <summary>What the scarcer of rows and columns are worth: a variance to which they add rests on no less.</summary>
    private static double FewestLines(ChannelLevel level) =>
        Math.Max(1, Math.Min(level.Rows, level.Level.PixelsPerChannel / level.Rows) / ProfileVariance.DifferencesADegree);

    /// <summary>
    /// Where dark levels differ (by exposure time, or by when they were shot) and their frames do not, frames are no
    /// independent witnesses: black is as likely anywhere between the levels' means (GUM, clause 4.3.7).
    /// </summary>
    private static double LevelVariance(IReadOnlyList<ChannelLevel> darks)
    {
        if (OneWayVariance.Of([.. darks.Select(d => d.Channel.FrameMeansDn)]) is not { } analysis
            || analysis.BetweenMeanSquare <= analysis.WithinMeanSquare * (1 + (ScatterThreshold * Math.Sqrt(2.0 / analysis.BetweenDegrees))))
        {
            return 0;
        }

        double[] means = [.. darks.Select(d => d.Channel.MeanDn)];
        double range = means.Max() - means.Min();
        return range * range / 12;
    }

    /// <summary>
    /// The pixels' part comes from the levels that count. Rows and columns are few and their parts uncertain, dark signal
    /// adds nothing to them but noise, and lines run through all channels: those of all levels and channels serve, each
    /// level weighed by its own noise.
    /// </summary>
    /// <returns>The variance of a mean in DN², and the uncertainty that few lines leave in it: its square is twice their part's over their degrees of freedom.</returns>
    private static Estimate VarianceOfMean(ChannelLevel[] levels, ChannelLevel[] all, Func<LevelChannel, VarianceParts> parts)
    {
        double pixels = levels[0].Level.PixelsPerChannel;
        double rows = levels[0].Rows;
        double pixel = levels.Average(l => Math.Max(0, parts(l.Channel).PixelDn2)) / pixels;
        Estimate[] levelLines = [.. all.Select(l => LinesOfMean([.. l.Level.Channels.Where(c => c.TemporalParts is not null).Select(parts)], rows, pixels / rows))];
        (double lines, double uncertainty, _) = levelLines.All(l => l.Variance > 0) ? Estimate.WeightedMean(levelLines) : levelLines[0];
        double shared = all[0].Level.Channels.Count > 1 ? ChannelsALine : 1;
        double weight = uncertainty > 0 ? Math.Clamp(lines / uncertainty / LinesCount, 0, 1) : 1;
        return new Estimate(pixel + (weight * Math.Max(0, lines)), lines > 0 ? weight * uncertainty * Math.Sqrt(shared) : 0);
    }

    /// <summary>What rows and columns add to the variance of a level's mean, the channels' mean.</summary>
    private static Estimate LinesOfMean(VarianceParts[] channels, double rows, double columns) => new(
        channels.Average(p => (p.RowDn2 / rows) + (p.ColumnDn2 / columns)),
        Math.Sqrt(channels.Sum(p => Math.Pow(p.RowUncertaintyDn2 / rows, 2) + Math.Pow(p.ColumnUncertaintyDn2 / columns, 2))) / channels.Length);
}
