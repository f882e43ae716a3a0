using System.Globalization;
using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Levels;

/// <summary>light-stepped or light-banded, from level records alone: levels whose frames stand in two lights, so that their variances are none.</summary>
/// <remarks>
/// What <see cref="LightSplit"/> could not take apart, and profiles of earlier versions that are fitted again. A level's frames
/// stand in two lights where the largest gap between their signals is so many times what is usual at that ISO. Where bands as
/// strong as the gap wander over a level, it is the lamp's pulses: a frame's mean hangs on where in a pulse it began.
/// </remarks>
internal static class MixedLight
{
    /// <summary>Six deviations of the difference of two frames under flicker are some eight times its median.</summary>
    private const double GapOverUsual = 8;

    /// <summary>The smallest gap that counts, in codes.</summary>
    private const double LeastGapDn = 1;

    /// <summary>Looks at an ISO's levels.</summary>
    /// <param name="iso">The ISO setting.</param>
    /// <param name="levels">Its records, a dark one among them.</param>
    /// <returns>A refusal of the ISO, or null where every level has one light.</returns>
    public static Finding? Of(int iso, IReadOnlyList<LevelRecord> levels)
    {
        DarkMeans dark = new([.. levels.Where(l => l.Role == RoleName.Dark).SelectMany(FrameMeans)]);
        if (dark.MeansDn.Count == 0)
        {
            return null;
        }

        (LevelRecord Level, double GapEv, double GapDn)[] gaps = [.. levels.Where(l => l.Role == RoleName.Bracket && l.Frames > 1).Select(l => Gap(l, dark)).OfType<(LevelRecord, double, double)>()];
        if (gaps.Length == 0)
        {
            return null;
        }

        double usual = gaps.Select(g => g.GapEv).Order().ElementAt(gaps.Length / 2);
        double leastDn = Math.Max(LeastGapDn, dark.ReachDn(Significance.LightGap));
        var mixed = gaps.Where(g => g.GapEv > Math.Max(LightSteps.GapEv, GapOverUsual * usual) && g.GapDn > leastDn + (Significance.LightGap * NoiseOf(g.Level))).ToArray();
        if (mixed.Length == 0)
        {
            return null;
        }

        double most = mixed.Max(g => g.GapEv);
        string times = string.Join(", ", mixed.Take(4).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Level.ExposureSeconds:0.#####} s"))) + (mixed.Length > 4 ? " and more" : string.Empty);
        string apart = string.Create(CultureInfo.InvariantCulture, $"up to {most:0.0} stops apart, at {times}");
        const string NoNoise = "Such levels have no noise of their own.";
        double darkBands = levels.Where(l => l.Role == RoleName.Dark).Max(BandsDn2);
        double[] pulses = [.. mixed.Select(g => LampPulse.Amplitude(BandsDn2(g.Level), darkBands, FrameMeans(g.Level).Average() - dark.BlackDn))];
        return mixed.Zip(pulses).All(p => LampPulse.MostApartEv(p.Second) > p.First.GapEv)
            ? new Finding
            {
                Code = FindingCode.LightBanded,
                Severity = FindingSeverity.Refusal,
                Iso = iso,
                Size = pulses.Max(),
                SizeUnit = "relative",
                Message = string.Create(CultureInfo.InvariantCulture, $"At ISO {iso} the lamp pulses so strongly, by up to {pulses.Max():P0}, that frames of one exposure stand {apart}. {NoNoise}"),
                Remedy = "Shoot the bracket again in a light that does not pulse, as daylight or a lamp on direct current; with this lamp only exposures of 1/50 s and longer, by the mechanical shutter, are of use.",
            }
            : new Finding
            {
                Code = FindingCode.LightStepped,
                Severity = FindingSeverity.Refusal,
                Iso = iso,
                Size = most,
                SizeUnit = "ev",
                Message = string.Create(CultureInfo.InvariantCulture, $"At ISO {iso} the frames of one exposure stand in two lights, {apart}: {LightSplit.Causes}. {NoNoise}"),
                Remedy = "Name the light of the frames that were shot in the other one in the column lightStep of frames.csv, one row each, and characterise the frames again; sensorlab assign writes the rows.",
            };
    }

    private static double BandsDn2(LevelRecord level) => level.Channels.Max(c => c.BandVarianceDn2 ?? 0);

    private static (LevelRecord Level, double GapEv, double GapDn)? Gap(LevelRecord level, DarkMeans dark)
    {
        double floor = Math.Max(LeastGapDn, dark.ScatterDn);
        double[] signals = [.. FrameMeans(level).Select(m => Math.Max(floor, m - dark.BlackDn)).Order()];
        return signals.Length < 2 ? null : signals.Zip(signals.Skip(1), (a, b) => (level, Math.Log2(b / a), b - a)).MaxBy(g => g.Item2);
    }

    private static double NoiseOf(LevelRecord level) => level.Channels.Max(c => c.MeanUncertaintyDn) * Math.Sqrt(level.Frames);

    private static IEnumerable<double> FrameMeans(LevelRecord level)
    {
        LevelChannel[] green = [.. level.Channels.Where(c => ChannelName.IsPooled(c.Name))];
        int frames = green.Length == 0 ? 0 : green.Min(c => c.FrameMeansDn.Count);
        return Enumerable.Range(0, frames).Select(f => green.Average(c => c.FrameMeansDn[f]));
    }
}

/// <summary>How strongly a lamp pulses, by the bands that wander across the rows between a level's frames.</summary>
internal static class LampPulse
{
    /// <summary>Relative amplitude of a sine whose variance the bands have.</summary>
    /// <param name="bandDn2">Variance of the bands in DN².</param>
    /// <param name="darkBandDn2">The same of dark frames, which is the sensor's own; twice of it is taken off, since it is an estimate.</param>
    /// <param name="signalDn">Mean signal in DN above black.</param>
    /// <returns>0 where there is no signal, or where the sensor's own bands are all.</returns>
    public static double Amplitude(double bandDn2, double darkBandDn2, double signalDn) =>
        signalDn > 0 ? Math.Sqrt(2 * Math.Max(0, bandDn2 - (2 * darkBandDn2))) / signalDn : 0;

    /// <summary>The most that the light of two moments may lie apart, in EV: a sine's crest over its trough.</summary>
    /// <param name="amplitude">The pulse's relative amplitude.</param>
    /// <returns>Infinite where the lamp goes out between its pulses.</returns>
    public static double MostApartEv(double amplitude) => amplitude < 1 ? Math.Log2((1 + amplitude) / (1 - amplitude)) : double.PositiveInfinity;
}
