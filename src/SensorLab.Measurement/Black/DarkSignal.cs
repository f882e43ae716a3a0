using SensorLab.Law;
using SensorLab.Measurement.Levels;

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

    /// <summary>A channel's levels, the dark ones with what they hold beyond the shortest of them.</summary>
    /// <param name="levels">The channel's levels.</param>
    /// <param name="drift">How black drifts.</param>
    /// <remarks>
    /// As measured, whether it stands out or not: what is taken for none makes read noise too large by its shot noise, and
    /// what is taken for certain leaves the row noise of two means in it.
    /// </remarks>
    public static IReadOnlyList<ObservedLevel> Into(IReadOnlyList<ObservedLevel> levels, BlackDrift drift)
    {
        ObservedLevel[] darks = [.. levels.Where(l => l.IsDark && BlackMoments.IsPaired(l.Level))];
        double shortest = darks.Select(d => d.Level.ExposureSeconds).DefaultIfEmpty().Min();
        ObservedLevel[] unlit = [.. darks.Where(d => !IsLong(d))];
        double frames = unlit.Sum(d => d.Level.Frames);
        double unlitDn = unlit.Sum(d => d.Level.Frames * d.Channel.MeanDn) / frames;
        double frameDn2 = drift.FrameDn2 + darks.Select(BlackMoments.TemporalVariance).DefaultIfEmpty().Average();
        return [.. levels.Select(l => l.IsDark && BlackMoments.IsPaired(l.Level) && IsLong(l)
            ? l with { DarkSignalDn = new Estimate(l.Channel.MeanDn - unlitDn, Math.Sqrt(frameDn2 * ((1 / frames) + (1.0 / l.Level.Frames)))) }
            : l)];

        bool IsLong(ObservedLevel dark) => dark.Level.ExposureSeconds > shortest && dark.Level.ExposureSeconds >= SmallestRatio * shortest;
    }
}
