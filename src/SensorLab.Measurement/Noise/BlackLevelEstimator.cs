using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Noise;

/// <summary>The black level of a channel: the mean of its dark frames, of the short ones where dark signal grows with exposure.</summary>
public static class BlackLevelEstimator
{
    /// <summary>Standard deviations by which dark frames may scatter before their scatter replaces what noise explains.</summary>
    private const double ScatterThreshold = 4;

    /// <summary>
    /// Share of the pixels' part below which row and column parts, unbiased and hence perhaps negative, do not bring a
    /// variance: cutting each off at zero would overstate what has no rows.
    /// </summary>
    private const double SmallestShare = 0.5;

    /// <summary>Estimates the black level.</summary>
    /// <param name="darks">The channel's dark levels, one or more.</param>
    /// <returns>Mean in DN; the uncertainty covers temporal noise, drift between frames and the sampling of DSNU.</returns>
    public static Estimate Of(IReadOnlyList<ChannelLevel> darks) => OfUnlit(DarkSignal.WithoutIt(darks));

    private static Estimate OfUnlit(IReadOnlyList<ChannelLevel> darks)
    {
        double[] means = [.. darks.SelectMany(d => d.Channel.FrameMeansDn)];
        double mean = means.Average();
        ChannelLevel[] paired = [.. darks.Where(d => d.Channel.TemporalParts is not null)];
        if (paired.Length == 0)
        {
            return new Estimate(mean, darks.Max(d => d.Channel.MeanUncertaintyDn));
        }

        double temporal = paired.Average(TemporalVarianceOfFrameMean);
        double pattern = paired.Average(PatternVarianceOfMean);
        double scatter = means.Sum(m => (m - mean) * (m - mean)) / Math.Max(1, means.Length - 1);
        double allowed = temporal * (1 + (ScatterThreshold * Math.Sqrt(2.0 / Math.Max(1, means.Length - 1))));
        bool drifts = means.Length > 1 && scatter > allowed;
        double frames = (drifts ? scatter : temporal) / means.Length;
        double levels = drifts ? LevelVariance(darks) : 0;
        double variance = pattern + Math.Max(frames, levels);
        bool isScatter = drifts && frames >= levels;
        return new Estimate(mean, Math.Sqrt(variance), isScatter ? (means.Length - 1) * Math.Pow(variance / frames, 2) : double.PositiveInfinity);
    }

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

    /// <summary>Variance of a frame's mean by temporal noise alone, in DN².</summary>
    internal static double TemporalVarianceOfFrameMean(ChannelLevel level) => VarianceOfMean(level, level.Channel.TemporalParts!);

    private static double PatternVarianceOfMean(ChannelLevel level) => VarianceOfMean(level, level.Channel.FixedPatternParts!);

    private static double VarianceOfMean(ChannelLevel level, VarianceParts parts)
    {
        double pixels = level.Level.PixelsPerChannel;
        double rows = level.Rows;
        double pixel = Math.Max(0, parts.PixelDn2) / pixels;
        return Math.Max(pixel * SmallestShare, pixel + (parts.RowDn2 / rows) + (parts.ColumnDn2 * rows / pixels));
    }
}
