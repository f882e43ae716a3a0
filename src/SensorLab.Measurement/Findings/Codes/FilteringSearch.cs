using SensorLab.Law;
using SensorLab.Pixels.Neighbours;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>Looks for noise that neighbours share, over the colours, inside a channel, or in one direction.</summary>
internal static class FilteringSearch
{
    private const int FourNeighbours = 4;
    private const int EightNeighbours = 8;
    private const int NeighboursOfALine = 2;

    /// <summary>
    /// Four fifths of what gain may be off. What neighbours share in all is missing in the variance, since a filter leaves
    /// that of large areas as it was: so much is the correlation times the number of neighbours.
    /// </summary>
    private const double SmallestLoss = 0.008;

    /// <summary>
    /// Noise in code steps below which rounding undoes a filter altogether. It undoes a weak one up to some tens of steps:
    /// levels are judged by their noise and the noisiest apart, too.
    /// </summary>
    private const double SmallestNoiseSteps = 2;

    /// <summary>A filter that leaves large differences alone works on the dark frames most; below this their noise is rounding.</summary>
    private const double SmallestDarkNoiseSteps = 0.5;

    /// <summary>What all photosites of a mosaic share with their next neighbours, whatever their colour; null where that is nothing.</summary>
    /// <param name="evidence">The ISO.</param>
    public static Filtering? OverColours(IsoEvidence evidence) => Found(evidence, OfMosaic);

    /// <summary>What photosites share with the next of their channel; null where that is nothing.</summary>
    /// <param name="evidence">The ISO.</param>
    public static Filtering? InChannels(IsoEvidence evidence) => Found(evidence, OfChannels);

    /// <summary>What photosites of a channel share in one direction, or with neighbours of one kind.</summary>
    /// <param name="evidence">The ISO.</param>
    /// <param name="part">Which neighbours count.</param>
    public static Filtering InDirection(IsoEvidence evidence, Func<NoiseNeighbours, Estimate?> part)
    {
        FilteringSample[] samples = [.. Unsaturated(evidence).SelectMany(l => OfChannels(l.Level, l.Channels, part)).Where(s => s.NoiseSteps > SmallestNoiseSteps)];
        return Filtering.Of(samples, _ => 1, NeighboursOfALine);
    }

    /// <summary>The levels that are looked at, each with its channels that do not saturate.</summary>
    private static IEnumerable<(EvidenceLevel Level, int[] Channels)> Unsaturated(IsoEvidence evidence) =>
        from level in evidence.Levels
        where level.Role is not Frames.FrameRole.Light
        select (level, Enumerable.Range(0, evidence.Channels.Count).Where(c => level.IsDark || evidence.IsBetween(level, c, 0, FitRange.HighestShare)).ToArray());

    private static IEnumerable<FilteringSample> OfMosaic(EvidenceLevel level, int[] channels, Func<NoiseNeighbours, Estimate?> part) =>
        level.Statistics.Mosaic is { } mosaic && part(mosaic) is { } correlation && channels.Length == level.Record.Channels.Count
            ? [new FilteringSample(level, channels.Min(c => NoiseSteps(level.Record.Channels[c])), correlation)]
            : [];

    private static IEnumerable<FilteringSample> OfChannels(EvidenceLevel level, int[] channels, Func<NoiseNeighbours, Estimate?> part)
    {
        foreach (int channel in channels)
        {
            if (level.Statistics.Channels[channel].TemporalNeighbours.Neighbours is { } neighbours && part(neighbours) is { } correlation)
            {
                yield return new FilteringSample(level, NoiseSteps(level.Record.Channels[channel]), correlation);
            }
        }
    }

    /// <summary>The clearest of what four neighbours, eight, and those a whole repeat of the filters away show; null where none shows anything.</summary>
    /// <param name="evidence">The ISO.</param>
    /// <param name="samplesOf">What a level tells by its channels that do not saturate.</param>
    private static Filtering? Found(IsoEvidence evidence, Func<EvidenceLevel, int[], Func<NoiseNeighbours, Estimate?>, IEnumerable<FilteringSample>> samplesOf)
    {
        (EvidenceLevel Level, int[] Channels)[] levels = [.. Unsaturated(evidence)];
        Filtering? Of(Func<NoiseNeighbours, Estimate?> part, int neighbours) =>
            Found([.. levels.SelectMany(l => samplesOf(l.Level, l.Channels, part))], neighbours);
        Filtering?[] found = [Of(n => n.Sides, FourNeighbours), Of(n => n.Around, EightNeighbours), Of(n => n.Repeats, FourNeighbours)];
        return found.MaxBy(f => f?.Deviations ?? 0);
    }

    /// <summary>What the first of the tests finds that is sure, else the clearest; null where none finds anything.</summary>
    private static Filtering? Found(FilteringSample[] samples, int neighbours)
    {
        FilteringSample[] all = [.. samples.Where(s => s.NoiseSteps > SmallestNoiseSteps)];
        double noisiest = all.Select(s => s.NoiseSteps).DefaultIfEmpty(0).Max();
        FilteringSample[] noisy = [.. all.Where(s => s.NoiseSteps > noisiest / 2)];
        FilteringSample[] dark = [.. samples.Where(s => s.Level.IsDark && s.NoiseSteps > SmallestDarkNoiseSteps)];

        // What works on the dark frames most is a smoothing that spares large differences: none that makes them larger.
        (FilteringSample[] Samples, Func<FilteringSample, double> Expected)[] tests = [(noisy, _ => 1), (all, s => s.NoiseSteps), (all, _ => 1), (dark, _ => 1)];
        Filtering[] found = [.. tests
            .Where(test => test.Samples.Length > 0)
            .Select(test => (Found: Filtering.Of(test.Samples, test.Expected, neighbours), IsOfDark: test.Samples == dark))
            .Where(f => !(f.IsOfDark && f.Found.IsSharpened))
            .Select(f => f.Found)
            .Where(f => Math.Abs(f.Loss) > SmallestLoss && f.Deviations > (f.IsSharpened ? Significance.DoubtfulApart : Significance.DoubtfulNeighbours))];
        return found.FirstOrDefault(f => f.IsSure) ?? found.MaxBy(f => f.Deviations);
    }

    private static double NoiseSteps(LevelChannel channel) => Math.Sqrt(channel.TemporalParts?.PixelDn2 ?? 0) / channel.CodeStepDn;
}
