using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Noise;

/// <summary>Electrons that dark frames collect the longer they are: dark current, or light that leaks in.</summary>
/// <remarks>
/// They are signal like any other, shot noise included. Black is what is left at no exposure; the long dark frames then
/// lie on the photon-transfer line as dim levels do.
/// </remarks>
internal static class DarkSignal
{
    /// <summary>Exposure ratio below which a rise cannot be told from a drift.</summary>
    private const double SmallestRatio = 2;

    /// <summary>Standard deviations by which the longest dark frames must stand out: to take the short ones by mistake only costs their number.</summary>
    private const double RiseThreshold = 2;

    /// <summary>Standard deviations by which frames of one exposure may scatter: beyond them black drifts, whatever the exposure.</summary>
    private const double ScatterThreshold = 4.5;

    /// <summary>The dark levels that hold none of it.</summary>
    /// <param name="darks">The channel's dark levels, one or more.</param>
    /// <returns>All of them where dark signal does not grow; else those whose share of it is below their noise, the shortest among them.</returns>
    public static IReadOnlyList<ChannelLevel> WithoutIt(IReadOnlyList<ChannelLevel> darks)
    {
        ChannelLevel[] paired = [.. darks.Where(d => d.Channel.TemporalParts is not null).OrderBy(d => d.Level.ExposureSeconds)];
        if (paired.Length < 2 || paired[^1].Level.ExposureSeconds < SmallestRatio * paired[0].Level.ExposureSeconds || Drifts(paired))
        {
            return darks;
        }

        ChannelLevel shortest = paired[0];
        ChannelLevel longest = paired[^1];
        double perSecond = (longest.Channel.MeanDn - shortest.Channel.MeanDn) / (longest.Level.ExposureSeconds - shortest.Level.ExposureSeconds);
        if (longest.Channel.MeanDn - shortest.Channel.MeanDn < RiseThreshold * Math.Sqrt(VarianceOfMean(longest) + VarianceOfMean(shortest)))
        {
            return darks;
        }

        return [.. darks.Where(d => perSecond * (d.Level.ExposureSeconds - shortest.Level.ExposureSeconds) <= Math.Sqrt(VarianceOfMean(shortest)))];
    }

    private static bool Drifts(ChannelLevel[] paired)
    {
        double chiSquare = paired.Sum(d => d.Channel.FrameMeansDn.Sum(m => Math.Pow(m - d.Channel.MeanDn, 2)) / BlackLevelEstimator.TemporalVarianceOfFrameMean(d));
        double degrees = paired.Sum(d => d.Channel.FrameMeansDn.Count - 1.0);
        return ChiSquareTest.Deviations(chiSquare, degrees) > ScatterThreshold;
    }

    private static double VarianceOfMean(ChannelLevel level) => BlackLevelEstimator.TemporalVarianceOfFrameMean(level) / level.Level.Frames;
}
