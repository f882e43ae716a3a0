using SensorLab.Frames;
using SensorLab.Measurement.Statistics;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>raw-filtered over the channels: rows next to each other, and columns next to each other, share temporal noise though they are of other colours.</summary>
/// <remarks>
/// A filter that takes from the nearest neighbours, whatever their colour, leaves hardly a trace inside a channel. Lines
/// next to each other then correlate, lines three apart do not; bands and drifts of the light are alike in both and drop
/// out of the difference. Row noise is each row's own, and bands run along rows alone: both directions have to agree.
/// </remarks>
internal sealed class ChannelsMixedCheck : IIsoCheck
{
    /// <summary>A line's correlation is some three times the pixels': 1 % of it lowers variance by about 1 %.</summary>
    private const double SmallestCorrelation = 0.01;

    /// <summary>Standard deviations of both directions together, each at least half of it: chance brings 10⁻⁶.</summary>
    private const double Deviations = 5;

    private const double HighestShare = 0.7;

    /// <summary>Noise in code steps below which rounding undoes a filter.</summary>
    private const double SmallestNoiseSteps = 2;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        int[] channels = [.. Enumerable.Range(0, evidence.Channels.Count)];
        EvidenceLevel[] levels = channels.Length < 4 ? [] : [.. evidence.Lit.Where(l => l.Record.Frames > 1
            && channels.All(c => evidence.IsBetween(l, c, 0, HighestShare) && Math.Sqrt(l.Record.Channels[c].TemporalParts!.PixelDn2) > SmallestNoiseSteps * l.Record.Channels[c].CodeStepDn))];
        (double rows, double rowWeight) = Excess(evidence, levels, rows: true);
        (double columns, double columnWeight) = Excess(evidence, levels, rows: false);
        double rowDeviations = rows * Math.Sqrt(rowWeight);
        double columnDeviations = columns * Math.Sqrt(columnWeight);
        double mean = ((rows * rowWeight) + (columns * columnWeight)) / Math.Max(rowWeight + columnWeight, double.Epsilon);
        if (mean > SmallestCorrelation && Math.Min(rowDeviations, columnDeviations) > Deviations / 2 && mean * Math.Sqrt(rowWeight + columnWeight) > Deviations)
        {
            yield return FlawFinding.Warning(
                FindingCode.RawFiltered,
                evidence.Iso,
                mean,
                "relative",
                $"At ISO {evidence.Iso} rows and columns next to each other share noise over the colours (correlation {mean:P1}): the raw data were smoothed over neighbours of any colour. Not compensated: noise figures look too good, gain too high, and the channels' signals are mixed.",
                "Switch off noise reduction in the body, or compare this body only with others that smooth as much.").In(levels);
        }
    }

    /// <summary>Correlation of lines next to each other less that of lines three apart, over all levels, and its inverse variance.</summary>
    private static (double Mean, double Weight) Excess(IsoEvidence evidence, EvidenceLevel[] levels, bool rows)
    {
        double weights = 0;
        double sum = 0;
        foreach (EvidenceLevel level in levels)
        {
            double[][] sides = [.. new[] { 0, 1 }.Select(side => Lines(evidence, level, rows, side))];
            double[] first = sides[0];
            double[] second = sides[1];
            double square = first.Concat(second).Average(v => v * v);
            List<double> excess = [];
            for (int i = 1; i + 1 < Math.Min(first.Length, second.Length); i++)
            {
                // Lines 2i and 2i + 1 of the sensor, then 2i − 1 and 2i: each beside a pair three lines apart.
                excess.Add(((first[i] * second[i]) - (first[i - 1] * second[i])) / square);
                excess.Add(((second[i - 1] * first[i]) - (second[i - 1] * first[i + 1])) / square);
            }

            double mean = excess.Average();
            double variance = excess.Sum(e => (e - mean) * (e - mean)) / (excess.Count - 1.0) / excess.Count;
            weights += 1 / variance;
            sum += mean / variance;
        }

        return (sum / Math.Max(weights, double.Epsilon), weights);
    }

    /// <summary>
    /// What the lines of one parity have in a level's second frame more than in its first, the first scaled to its light: the
    /// mean of both channels there, each in standard deviations.
    /// </summary>
    private static double[] Lines(IsoEvidence evidence, EvidenceLevel level, bool rows, int parity)
    {
        ColourFilterArray filters = level.Statistics.Level.Frames[0].Raw.Layout.ColourFilterArray;
        double[]? total = null;
        for (int c = 0; c < evidence.Channels.Count; c++)
        {
            ChannelStatistics channel = level.Statistics.Channels[c];
            (int row, int column) = filters.FirstSiteOf(channel.Channel);
            if ((rows ? row : column) != parity)
            {
                continue;
            }

            double black = evidence.BlackDn(c) * (rows ? channel.Columns : channel.Rows);
            FrameMoments[] frames = [.. channel.Frames.Take(2)];
            double scale = (frames[1].Sum - (evidence.BlackDn(c) * channel.Pixels)) / (frames[0].Sum - (evidence.BlackDn(c) * channel.Pixels));
            double[] before = rows ? frames[0].RowSums : frames[0].ColumnSums;
            double[] after = rows ? frames[1].RowSums : frames[1].ColumnSums;
            double[] lines = [.. before.Zip(after).Select(p => p.Second - black - (scale * (p.First - black)))];
            double deviation = Math.Sqrt(lines.Average(v => v * v));
            total ??= new double[lines.Length];
            for (int i = 0; i < lines.Length; i++)
            {
                total[i] += lines[i] / deviation;
            }
        }

        return total ?? [];
    }
}
