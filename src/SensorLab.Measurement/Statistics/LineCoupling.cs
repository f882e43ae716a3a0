using SensorLab.Frames;
using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Statistics;

/// <summary>How much temporal noise the lines of a mosaic share with the line next to them, which belongs to other channels.</summary>
/// <remarks>
/// A correlation of the lines' means, less that of lines three apart: bands and drifts of the light are alike in both and
/// drop out of the difference.
/// </remarks>
/// <param name="Rows">Correlation of rows next to each other.</param>
/// <param name="Columns">Correlation of columns next to each other.</param>
internal sealed record LineCoupling(Estimate Rows, Estimate Columns)
{
    /// <summary>The coupling in what the second frame of a level has more than the first, scaled to its light.</summary>
    /// <param name="filters">The colour filter array.</param>
    /// <param name="channels">Moments of each channel and its black level in DN.</param>
    /// <returns>Null for a single frame or a single channel.</returns>
    public static LineCoupling? Of(ColourFilterArray filters, IReadOnlyDictionary<SensorChannel, (ChannelMoments Moments, double BlackDn)> channels)
    {
        if (filters.IsMonochrome || channels.Values.First().Moments.Frames.Count < 2)
        {
            return null;
        }

        var lines = channels.ToDictionary(c => c.Key, c => (Rows: Differences(c.Value.Moments, c.Value.BlackDn, rows: true), Columns: Differences(c.Value.Moments, c.Value.BlackDn, rows: false)));
        double[] OfParity(bool rows, int parity) => Sum([.. lines
            .Where(l => (rows ? filters.FirstSiteOf(l.Key).Row : filters.FirstSiteOf(l.Key).Column) == parity)
            .Select(l => rows ? l.Value.Rows : l.Value.Columns)]);
        return new LineCoupling(
            Excess(OfParity(rows: true, 0), OfParity(rows: true, 1)),
            Excess(OfParity(rows: false, 0), OfParity(rows: false, 1)));
    }

    /// <summary>Correlation of lines next to each other less that of lines three apart.</summary>
    /// <param name="even">Lines 0, 2, 4 … of the sensor.</param>
    /// <param name="odd">Lines 1, 3, 5 … of the sensor.</param>
    private static Estimate Excess(double[] even, double[] odd)
    {
        double square = even.Concat(odd).Average(v => v * v);
        List<double> excess = [];
        for (int i = 1; i + 1 < Math.Min(even.Length, odd.Length); i++)
        {
            // Lines 2i and 2i + 1 of the sensor, then 2i − 1 and 2i: each beside a pair three lines apart.
            excess.Add(((even[i] * odd[i]) - (even[i - 1] * odd[i])) / square);
            excess.Add(((odd[i - 1] * even[i]) - (odd[i - 1] * even[i + 1])) / square);
        }

        double mean = excess.Average();
        return new Estimate(mean, Math.Sqrt(excess.Sum(e => (e - mean) * (e - mean)) / (excess.Count - 1.0) / excess.Count));
    }

    /// <summary>A channel's lines of the second frame less those of the first, scaled to its light, in standard deviations.</summary>
    private static double[] Differences(ChannelMoments channel, double blackDn, bool rows)
    {
        double black = blackDn * (rows ? channel.Columns : channel.Rows);
        double[] before = rows ? channel.Frames[0].RowSums : channel.Frames[0].ColumnSums;
        double[] after = rows ? channel.Frames[1].RowSums : channel.Frames[1].ColumnSums;
        double scale = (channel.MeanDnOf(1) - blackDn) / (channel.MeanDnOf(0) - blackDn);
        double[] differences = [.. before.Zip(after).Select(p => p.Second - black - (scale * (p.First - black)))];
        double deviation = Math.Sqrt(differences.Average(v => v * v));
        return Array.ConvertAll(differences, d => d / deviation);
    }

    private static double[] Sum(double[][] lines) => [.. Enumerable.Range(0, lines.Min(l => l.Length)).Select(i => lines.Sum(l => l[i]))];
}
