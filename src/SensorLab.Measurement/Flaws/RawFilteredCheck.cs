using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>raw-filtered: the temporal noise of neighbouring pixels correlates, so that something smoothed the raw data.</summary>
/// <remarks>
/// A kernel that takes w from each of its four neighbours leaves them with a correlation of 2w(1 − 4w) over
/// (1 − 4w)² + 4w². Row and column noise are taken out before, and defects are not yet replaced by their neighbours.
/// </remarks>
internal sealed class RawFilteredCheck : IIsoCheck
{
    /// <summary>A correlation of 0.3 % lowers variance by 1.2 %: what gain may be off.</summary>
    private const double SmallestCorrelation = 0.003;

    /// <summary>
    /// Standard deviations of the mean correlation, of which chance brings 3·10⁻⁵ a test. An ISO is put to four such tests,
    /// and their uncertainty hangs on nothing but the number of pairs.
    /// </summary>
    private const double Deviations = 4;

    /// <summary>Where pixels saturate, what is left of noise is no longer the sensor's.</summary>
    private const double HighestShare = 0.7;

    /// <summary>
    /// Noise in code steps below which rounding undoes a filter altogether. It undoes a weak one up to some tens of steps:
    /// levels are judged by their noise and the noisiest apart, too.
    /// </summary>
    private const double SmallestNoiseSteps = 2;

    /// <summary>A filter that leaves large differences alone works on the dark frames most; below this their noise is rounding.</summary>
    private const double SmallestDarkNoiseSteps = 0.5;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        (EvidenceLevel Level, LevelChannel Channel)[] all = [.. evidence.Levels
            .Where(l => l.Role is not Frames.FrameRole.Light)
            .SelectMany(l => Enumerable.Range(0, evidence.Channels.Count)
                .Where(c => l.IsDark || evidence.IsBetween(l, c, 0, HighestShare))
                .Select(c => (Level: l, Channel: l.Record.Channels[c])))
            .Where(p => p.Channel.NeighbourCorrelation is not null && NoiseSteps(p.Channel) > SmallestNoiseSteps)];
        double noisiest = all.Select(p => NoiseSteps(p.Channel)).DefaultIfEmpty(0).Max();
        (EvidenceLevel Level, LevelChannel Channel)[] noisy = [.. all.Where(p => NoiseSteps(p.Channel) > noisiest / 2)];
        (EvidenceLevel Level, LevelChannel Channel)[] dark = [.. evidence.Darks
            .SelectMany(l => l.Record.Channels.Select(c => (Level: l, Channel: c)))
            .Where(p => p.Channel.NeighbourCorrelation is not null && NoiseSteps(p.Channel) > SmallestDarkNoiseSteps)];
        ((EvidenceLevel Level, LevelChannel Channel)[] Samples, Func<LevelChannel, double> Expected)[] tests = [(noisy, _ => 1), (all, NoiseSteps), (all, _ => 1), (dark, _ => 1)];
        foreach (((EvidenceLevel Level, LevelChannel Channel)[] samples, Func<LevelChannel, double> expected) in tests)
        {
            (double mean, bool isThere) = Correlation(samples, expected);
            if (!isThere)
            {
                continue;
            }

            double weight = NeighboursWeight(mean);
            yield return FlawFinding.Warning(
                FindingCode.RawFiltered,
                evidence.Iso,
                weight,
                "relative",
                $"At ISO {evidence.Iso} neighbouring pixels share their noise (correlation {mean:P1}): the raw data were smoothed, each pixel taking {weight:P0} from its neighbours. Not compensated: noise figures look too good, gain too high.",
                "Switch off noise reduction in the body, or compare this body only with others that smooth as much.").In(samples.Select(s => s.Level));
            yield break;
        }
    }

    private static double NoiseSteps(LevelChannel channel) => Math.Sqrt(channel.TemporalParts?.PixelDn2 ?? 0) / channel.CodeStepDn;

    /// <summary>Mean correlation of both directions, and whether it is there beyond chance.</summary>
    /// <param name="samples">The levels' channels.</param>
    /// <param name="expected">What correlation is expected of each, in any unit: it weighs them beside their uncertainty.</param>
    private static (double Mean, bool IsThere) Correlation((EvidenceLevel Level, LevelChannel Channel)[] samples, Func<LevelChannel, double> expected)
    {
        double weights = 0;
        double variance = 0;
        double sum = 0;
        foreach (LevelChannel channel in samples.Select(s => s.Channel))
        {
            NeighbourCorrelation correlation = channel.NeighbourCorrelation!;
            double own = correlation.StandardUncertainty * correlation.StandardUncertainty / 2;
            double weight = expected(channel) / own;
            weights += weight;
            variance += weight * weight * own;
            sum += weight * (correlation.Horizontal + correlation.Vertical) / 2;
        }

        double mean = sum / Math.Max(weights, double.Epsilon);
        return (mean, mean > SmallestCorrelation && sum > Deviations * Math.Sqrt(variance));
    }

    /// <summary>The share that a pixel takes from its four neighbours' mean to make a correlation, by bisection.</summary>
    private static double NeighboursWeight(double correlation)
    {
        double low = 0;
        double high = 0.8;
        for (int i = 0; i < 40; i++)
        {
            double share = (low + high) / 2;
            double own = 1 - share;
            double made = share / 2 * own / ((own * own) + (share * share / 4));
            (low, high) = made < correlation ? (share, high) : (low, share);
        }

        return (low + high) / 2;
    }
}
