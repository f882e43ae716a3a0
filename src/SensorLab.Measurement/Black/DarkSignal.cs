using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>Electrons that dark frames collect the longer they are: dark current, or light that leaks in.</summary>
/// <remarks>
/// They are signal like any other, shot noise included. Black is what is left at no exposure; the long dark frames then
/// lie on the photon-transfer line as dim levels do.
/// </remarks>
internal static class DarkSignal
{
    /// <summary>Exposure ratio below which a rise cannot be told from a drift.</summary>
    private const double SmallestRatio = 2;

    /// <summary>
    /// Standard deviations by which the longest dark frames stand out where the short ones begin to count for more, and
    /// where they alone count: in between by degrees, or black's uncertainty would jump with what is no dark signal at all.
    /// </summary>
    private const double RiseBegins = 0.5;

    private const double RiseIsThere = 2.5;

    /// <summary>Standard deviations by which frames of one exposure may scatter: beyond them black drifts, whatever the exposure.</summary>
    private const double ScatterThreshold = 4.5;

    /// <summary>The dark levels that hold none of it.</summary>
    /// <param name="darks">The channel's dark levels, one or more.</param>
    /// <returns>All of them where dark signal is unlikelier than not to grow; else those of <see cref="Short"/>.</returns>
    public static IReadOnlyList<ChannelLevel> WithoutIt(IReadOnlyList<ChannelLevel> darks) => Short(darks) is { Weight: >= 0.5 } known ? known.Levels : darks;

    /// <summary>The dark levels whose share of it is below their noise, the shortest among them, and how far they alone count.</summary>
    /// <param name="darks">The channel's dark levels, one or more.</param>
    /// <returns>The levels with a weight from 0, nothing grows, to 1, it does beyond doubt.</returns>
    public static (IReadOnlyList<ChannelLevel> Levels, double Weight) Short(IReadOnlyList<ChannelLevel> darks)
    {
        LevelRecord[] paired = [.. darks.Select(d => d.Level).Where(IsPaired).OrderBy(d => d.ExposureSeconds)];
        if (paired.Length < 2 || paired[^1].ExposureSeconds < SmallestRatio * paired[0].ExposureSeconds || Drifts(paired))
        {
            return (darks, 0);
        }

        LevelRecord shortest = paired[0];
        LevelRecord longest = paired[^1];
        double rise = MeanDn(longest) - MeanDn(shortest);
        double deviations = rise / Math.Sqrt(VarianceOfMean(longest) + VarianceOfMean(shortest));
        double perSecond = rise / (longest.ExposureSeconds - shortest.ExposureSeconds);
        double noise = Math.Sqrt(VarianceOfMean(shortest));
        return (
            [.. darks.Where(d => perSecond * (d.Level.ExposureSeconds - shortest.ExposureSeconds) <= noise)],
            Math.Clamp((deviations - RiseBegins) / (RiseIsThere - RiseBegins), 0, 1));
    }

    /// <summary>A channel's levels, the dark ones with what they hold beyond the shortest of them.</summary>
    /// <param name="levels">The channel's levels.</param>
    /// <param name="drift">How black drifts.</param>
    /// <remarks>
    /// As measured, whether it stands out or not: what is taken for none makes read noise too large by its shot noise, and
    /// what is taken for certain leaves the row noise of two means in it.
    /// </remarks>
    public static IReadOnlyList<ChannelLevel> Into(IReadOnlyList<ChannelLevel> levels, BlackDrift drift)
    {
        ChannelLevel[] darks = [.. levels.Where(l => l.IsDark && IsPaired(l.Level))];
        double shortest = darks.Select(d => d.Level.ExposureSeconds).DefaultIfEmpty().Min();
        ChannelLevel[] unlit = [.. darks.Where(d => !IsLong(d))];
        double frames = unlit.Sum(d => d.Level.Frames);
        double unlitDn = unlit.Sum(d => d.Level.Frames * d.Channel.MeanDn) / frames;
        double frameDn2 = drift.FrameDn2 + darks.Select(BlackMoments.TemporalVariance).DefaultIfEmpty().Average();
        return [.. levels.Select(l => l.IsDark && IsPaired(l.Level) && IsLong(l)
            ? l with { DarkSignalDn = new Estimate(l.Channel.MeanDn - unlitDn, Math.Sqrt(frameDn2 * ((1 / frames) + (1.0 / l.Level.Frames)))) }
            : l)];

        bool IsLong(ChannelLevel dark) => dark.Level.ExposureSeconds > shortest && dark.Level.ExposureSeconds >= SmallestRatio * shortest;
    }

    private static bool IsPaired(LevelRecord level) => level.Channels.All(c => c.TemporalParts is not null);

    private static bool Drifts(LevelRecord[] paired)
    {
        double chiSquare = 0;
        int degrees = 0;
        foreach (LevelRecord level in paired)
        {
            double[] means = BlackMoments.FrameMeans(level);
            double mean = means.Average();
            chiSquare += means.Sum(m => (m - mean) * (m - mean)) / BlackMoments.TemporalVariance(level);
            degrees += means.Length - 1;
        }

        return ChiSquareTest.Deviations(chiSquare, degrees) > ScatterThreshold;
    }

    private static double MeanDn(LevelRecord level) => level.Channels.Average(c => c.MeanDn);

    private static double VarianceOfMean(LevelRecord level) => BlackMoments.TemporalVariance(level) / level.Frames;
}
