using MathNet.Numerics.Distributions;
using SensorLab.Law;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Pixels.Neighbours;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>raw-filtered: the temporal noise of neighbouring photosites correlates, over the colours or inside a channel, so that something smoothed the raw data, or sharpened them.</summary>
/// <remarks>
/// A kernel that takes w from each of its four neighbours leaves them with a correlation of 2w(1 − 4w) over
/// (1 − 4w)² + 4w². Where w is below 0 it moves each away from its neighbours, and their noise goes apart. Row and column
/// noise are taken out before, and defects are not yet replaced by their neighbours.
/// </remarks>
internal sealed class RawFilteredCheck : IIsoCheck
{
    private const int FourNeighbours = 4;
    private const int EightNeighbours = 8;
    private const int NeighboursOfALine = 2;

    /// <summary>Others of a group of 2 × 2.</summary>
    private const int NeighboursInAGroup = 3;

    private const double LargestOtherShare = 0.25;

    /// <summary>Where more is missing in the variance, no figure of noise should be relied on without a look.</summary>
    private const double LargestNotedLoss = 0.05;

    /// <summary>What <see cref="Figures.FindingConsequences"/> leaves of the figures.</summary>
    private const string Refused = "gain and all that is in electrons is left out, shadow ends and SNR are upper bounds, read noise in DN a lower one";

    /// <summary>The same of noise that looks too bad.</summary>
    private const string RefusedOfSharpened = "gain and all that is in electrons is left out, shadow ends and SNR are lower bounds, read noise in DN an upper one";

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

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        Filtering? mixed = Found(evidence, OfMosaic);
        Filtering? own = Found(evidence, OfChannels);
        bool isMixed = mixed is { IsSure: true } || (mixed is not null && own is not { IsSure: true });
        if ((isMixed ? mixed : own) is not { } found)
        {
            yield break;
        }

        if (found.IsSharpened)
        {
            yield return found.IsSure ? Sharpened(evidence.Iso, found, isMixed) : DoubtedSharpened(evidence.Iso, found, isMixed);
        }
        else if (!isMixed && Grouped(evidence) is { } grouped)
        {
            yield return grouped;
        }
        else if (!isMixed && Directed(evidence) is { } directed)
        {
            yield return directed;
        }
        else
        {
            yield return found.IsSure ? Filtered(evidence.Iso, found, isMixed) : Doubted(evidence.Iso, found, isMixed);
            if (isMixed && found.IsSure && new ResponseKneeCheck().Examine(evidence).Any())
            {
                yield return ClipHidden(evidence.Iso, found);
            }
        }
    }

    /// <summary>Past the well of one colour the neighbours' signal goes on rising, which shows as a knee: at the most by as much as all that a photosite keeps of its own.</summary>
    private static Finding ClipHidden(int iso, Filtering found)
    {
        double most = -Math.Log2(1 - found.Share);
        return FlawFinding.Note(
            FindingCode.ResponseNonlinear,
            iso,
            most / 2,
            "ev",
            $"At ISO {iso} a photosite that is full goes on rising with its neighbours of other colours, of which it takes {found.Share:P1}: texture may end up to {most:F2} stops below the highest code. Not compensated: the bright end's uncertainty allows for it.",
            "Switch off noise reduction in the body; until then place bright tones lower by as much.").In(found.Levels);
    }

    /// <summary>
    /// Noise that goes together along the rows alone, or the columns: what is read one after another keeps a little of the one
    /// before, of its colour or of its place in the repeat, while noise reduction smooths both ways. Null where the other
    /// direction has a part in it.
    /// </summary>
    private static Finding? Directed(IsoEvidence evidence) => new[]
    {
        Directed(evidence, n => n.Along, n => n.Across),
        Directed(evidence, n => n.RepeatAlong, n => n.RepeatAcross),
    }.MaxBy(f => f?.Size);

    private static Finding? Directed(IsoEvidence evidence, Func<NoiseNeighbours, Estimate?> alongRows, Func<NoiseNeighbours, Estimate?> acrossThem)
    {
        Filtering along = OfDirection(evidence, alongRows);
        Filtering across = OfDirection(evidence, acrossThem);
        (Filtering more, Filtering less, string lines) = along.Correlation > across.Correlation ? (along, across, "rows") : (across, along, "columns");
        if (!more.IsSure || more.IsSharpened || less.IsThere || less.Correlation > LargestOtherShare * more.Correlation)
        {
            return null;
        }

        bool isLarge = more.Loss > LargestNotedLoss;
        string fate = isLarge ? Refused : "the uncertainties of gain, noise and shadow ends allow for it";
        Finding finding = FlawFinding.Note(
            FindingCode.RawFiltered,
            evidence.Iso,
            more.Correlation,
            "relative",
            $"At ISO {evidence.Iso} neighbouring pixels share their noise along the {lines} (correlation {more.Correlation:P1}), and not the other way ({less.Correlation:P1}). A readout that keeps a little of the pixel before does that; noise reduction smooths both ways as a rule. Not compensated: gain is {more.Loss:P1} too high, and noise looks as much too good; {fate}.",
            "Nothing to shoot again where the body has no noise reduction to switch off; compare this body with others with that share in mind.").In(more.Levels);
        return isLarge ? finding with { Severity = FindingSeverity.Warning } : finding;
    }

    /// <summary>
    /// Noise that photosites share which touch under one filter, and those of the next group do not: they are read together,
    /// while noise reduction knows no groups. Null where others have a part in it, or no filter covers several photosites.
    /// </summary>
    private static Finding? Grouped(IsoEvidence evidence)
    {
        if (!evidence.Levels.Any(l => l.Statistics.Channels.Any(c => c.TemporalNeighbours.Neighbours is { Touching: not null, Apart: not null })))
        {
            return null;
        }

        Filtering inside = OfDirection(evidence, n => n.Touching ?? n.Sides) with { Neighbours = NeighboursInAGroup };
        Filtering apart = OfDirection(evidence, n => n.Apart ?? n.Sides);
        return !inside.IsSure || inside.IsSharpened || apart.IsThere || apart.Correlation > LargestOtherShare * inside.Correlation ? null : FlawFinding.Warning(
            FindingCode.RawFiltered,
            evidence.Iso,
            inside.Correlation,
            "relative",
            $"At ISO {evidence.Iso} photosites that touch under one filter share their noise (correlation {inside.Correlation:P1}), and those of the next group do not ({apart.Correlation:P1}): the sensor reads them together, or what was read together was spread over them again (binning); noise reduction knows no groups. Noise of a photosite looks too good, gain too high; not compensated: {Refused}.",
            "Choose the recording mode that reads every photosite by itself, if the body has one; or compare this body only with others that read as many together.").In(inside.Levels);
    }

    /// <summary>The levels that are looked at, each with its channels that do not saturate.</summary>
    private static IEnumerable<(EvidenceLevel Level, int[] Channels)> Unsaturated(IsoEvidence evidence) =>
        from level in evidence.Levels
        where level.Role is not Frames.FrameRole.Light
        select (level, Enumerable.Range(0, evidence.Channels.Count).Where(c => level.IsDark || evidence.IsBetween(level, c, 0, FitRange.HighestShare)).ToArray());

    private static Filtering OfDirection(IsoEvidence evidence, Func<NoiseNeighbours, Estimate?> part)
    {
        Sample[] samples = [.. Unsaturated(evidence).SelectMany(l => OfChannels(l.Level, l.Channels, part)).Where(s => s.NoiseSteps > SmallestNoiseSteps)];
        return Filtering.Of(samples, _ => 1, NeighboursOfALine);
    }

    private static Finding Filtered(int iso, Filtering found, bool isMixed) => FlawFinding.Warning(
        FindingCode.RawFiltered,
        iso,
        found.Share,
        "relative",
        isMixed
            ? (FormattableString)$"At ISO {iso} neighbouring photosites share their noise over the colours (correlation {found.Correlation:P1}): the raw data were smoothed, each photosite taking {found.Share:P1} from its neighbours of whatever colour. Noise looks too good, gain too high, and the channels' signals are mixed; not compensated: {Refused}."
            : $"At ISO {iso} neighbouring pixels share their noise (correlation {found.Correlation:P1}): the raw data were smoothed, each pixel taking {found.Share:P1} from its neighbours. Noise looks too good, gain too high; not compensated: {Refused}.",
        "Switch off noise reduction in the body, or compare this body only with others that smooth as much.").In(found.Levels);

    private static Finding Doubted(int iso, Filtering found, bool isMixed) => FlawFinding.Note(
        FindingCode.RawFiltered,
        iso,
        found.Share,
        "relative",
        $"At ISO {iso} neighbouring photosites {(isMixed ? "of different colours" : "of one colour")} may share their noise (correlation {found.Correlation:P1}), which chance alone does once in {1 / Normal.CDF(0, 1, -found.Deviations):F0} times. If it is no chance, the raw data were smoothed and gain is {found.Loss:P1} too high; the uncertainties of gain, noise and shadow ends allow for it.",
        "Shoot the bracket again with noise reduction switched off, over a larger region or with more levels: what is chance does not come back.").In(found.Levels);

    private static Finding Sharpened(int iso, Filtering found, bool isMixed) => FlawFinding.Warning(
        FindingCode.RawFiltered,
        iso,
        found.Share,
        "relative",
        $"At ISO {iso} the noise of neighbouring photosites {(isMixed ? "of different colours" : "of one colour")} goes apart (correlation {found.Correlation:P1}): the raw data were sharpened, or what neighbours give each other was reckoned out, each photosite moved away from its neighbours by {-found.Share:P1} of the difference. Noise looks too bad, gain too low{(isMixed ? ", and the channels' signals are mixed" : "")}; not compensated: {RefusedOfSharpened}.",
        "Switch off sharpening and lens corrections in the body, or compare this body only with others that sharpen as much.").In(found.Levels);

    private static Finding DoubtedSharpened(int iso, Filtering found, bool isMixed) => FlawFinding.Note(
        FindingCode.RawFiltered,
        iso,
        found.Share,
        "relative",
        $"At ISO {iso} the noise of neighbouring photosites {(isMixed ? "of different colours" : "of one colour")} may go apart (correlation {found.Correlation:P1}), which chance alone does once in {1 / Normal.CDF(0, 1, -found.Deviations):F0} times. If it is no chance, the raw data were sharpened and gain is {-found.Loss:P1} too low; the uncertainties of gain, noise and shadow ends allow for it.",
        "Shoot the bracket again with sharpening switched off, over a larger region or with more levels: what is chance does not come back.").In(found.Levels);

    private static IEnumerable<Sample> OfMosaic(EvidenceLevel level, int[] channels, Func<NoiseNeighbours, Estimate?> part) =>
        level.Statistics.Mosaic is { } mosaic && part(mosaic) is { } correlation && channels.Length == level.Record.Channels.Count
            ? [new Sample(level, channels.Min(c => NoiseSteps(level.Record.Channels[c])), correlation)]
            : [];

    private static IEnumerable<Sample> OfChannels(EvidenceLevel level, int[] channels, Func<NoiseNeighbours, Estimate?> part)
    {
        foreach (int channel in channels)
        {
            if (level.Statistics.Channels[channel].TemporalNeighbours.Neighbours is { } neighbours && part(neighbours) is { } correlation)
            {
                yield return new Sample(level, NoiseSteps(level.Record.Channels[channel]), correlation);
            }
        }
    }

    /// <summary>The clearest of what four neighbours, eight, and those a whole repeat of the filters away show; null where none shows anything.</summary>
    /// <param name="evidence">The ISO.</param>
    /// <param name="samplesOf">What a level tells by its channels that do not saturate.</param>
    private static Filtering? Found(IsoEvidence evidence, Func<EvidenceLevel, int[], Func<NoiseNeighbours, Estimate?>, IEnumerable<Sample>> samplesOf)
    {
        (EvidenceLevel Level, int[] Channels)[] levels = [.. Unsaturated(evidence)];
        Filtering? Of(Func<NoiseNeighbours, Estimate?> part, int neighbours) =>
            Found([.. levels.SelectMany(l => samplesOf(l.Level, l.Channels, part))], neighbours);
        Filtering?[] found = [Of(n => n.Sides, FourNeighbours), Of(n => n.Around, EightNeighbours), Of(n => n.Repeats, FourNeighbours)];
        return found.MaxBy(f => f?.Deviations ?? 0);
    }

    /// <summary>What the first of the tests finds that is sure, else the clearest; null where none finds anything.</summary>
    private static Filtering? Found(Sample[] samples, int neighbours)
    {
        Sample[] all = [.. samples.Where(s => s.NoiseSteps > SmallestNoiseSteps)];
        double noisiest = all.Select(s => s.NoiseSteps).DefaultIfEmpty(0).Max();
        Sample[] noisy = [.. all.Where(s => s.NoiseSteps > noisiest / 2)];
        Sample[] dark = [.. samples.Where(s => s.Level.IsDark && s.NoiseSteps > SmallestDarkNoiseSteps)];

        // What works on the dark frames most is a smoothing that spares large differences: none that makes them larger.
        (Sample[] Samples, Func<Sample, double> Expected)[] tests = [(noisy, _ => 1), (all, s => s.NoiseSteps), (all, _ => 1), (dark, _ => 1)];
        Filtering[] found = [.. tests
            .Where(test => test.Samples.Length > 0)
            .Select(test => (Found: Filtering.Of(test.Samples, test.Expected, neighbours), IsOfDark: test.Samples == dark))
            .Where(f => !(f.IsOfDark && f.Found.IsSharpened))
            .Select(f => f.Found)
            .Where(f => Math.Abs(f.Loss) > SmallestLoss && f.Deviations > (f.IsSharpened ? Significance.DoubtfulApart : Significance.DoubtfulNeighbours))];
        return found.FirstOrDefault(f => f.IsSure) ?? found.MaxBy(f => f.Deviations);
    }

    private static double NoiseSteps(LevelChannel channel) => Math.Sqrt(channel.TemporalParts?.PixelDn2 ?? 0) / channel.CodeStepDn;

    /// <summary>The share that a photosite takes from its neighbours' mean to make a correlation, by bisection; below 0 where it moves away from it.</summary>
    private static double ShareTaken(double correlation, int neighbours)
    {
        double low = -0.8;
        double high = 0.8;
        for (int i = 0; i < 40; i++)
        {
            double share = (low + high) / 2;
            double own = 1 - share;
            double made = 2 * share / neighbours * own / ((own * own) + (share * share / neighbours));
            (low, high) = made < correlation ? (share, high) : (low, share);
        }

        return (low + high) / 2;
    }

    /// <summary>What one level tells of a channel, or of all of them together.</summary>
    /// <param name="Level">The level.</param>
    /// <param name="NoiseSteps">Temporal noise in code steps.</param>
    /// <param name="Correlation">How neighbours' noise goes together.</param>
    private sealed record Sample(EvidenceLevel Level, double NoiseSteps, Estimate Correlation);

    /// <summary>What a test finds.</summary>
    /// <param name="Correlation">Correlation of neighbours.</param>
    /// <param name="Deviations">How many standard deviations it lies away from none.</param>
    /// <param name="Neighbours">How many neighbours a site has.</param>
    /// <param name="Levels">Where it shows.</param>
    private sealed record Filtering(double Correlation, double Deviations, int Neighbours, IEnumerable<EvidenceLevel> Levels)
    {
        /// <summary>Whether it is there beyond chance.</summary>
        public bool IsSure => Deviations > Significance.Neighbours;

        /// <summary>Whether neighbours of the other direction, or group, go together as well.</summary>
        public bool IsThere => !IsSharpened && Deviations > Significance.OtherDirection;

        /// <summary>Whether neighbours go apart and not together.</summary>
        public bool IsSharpened => Correlation < 0;

        /// <summary>What is missing in the variance; below 0 where it is too large.</summary>
        public double Loss => Neighbours * Correlation;

        /// <summary>What a photosite takes from its neighbours.</summary>
        public double Share => ShareTaken(Correlation, Neighbours);

        /// <summary>The mean correlation of some samples.</summary>
        /// <param name="samples">What the levels tell.</param>
        /// <param name="expected">What correlation is expected of each, in any unit: it weighs them beside their uncertainty.</param>
        /// <param name="neighbours">How many neighbours a site has.</param>
        public static Filtering Of(Sample[] samples, Func<Sample, double> expected, int neighbours)
        {
            double weights = 0;
            double variance = 0;
            double sum = 0;
            foreach (Sample sample in samples)
            {
                double weight = expected(sample) / sample.Correlation.Variance;
                weights += weight;
                variance += weight * weight * sample.Correlation.Variance;
                sum += weight * sample.Correlation.Value;
            }

            return new Filtering(sum / weights, Math.Abs(sum) / Math.Sqrt(variance), neighbours, samples.Select(s => s.Level));
        }
    }
}
