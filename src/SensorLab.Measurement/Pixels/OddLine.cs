namespace SensorLab.Measurement.Pixels;

/// <summary>A line of a channel that stands out of its neighbours along all of its length, in all frames of a level together.</summary>
/// <param name="IsRow">Whether it is a row; else a column.</param>
/// <param name="Index">Its index in the channel's plane of the region.</param>
/// <param name="OffDn">Its mean less its neighbours', in DN.</param>
internal readonly record struct OddLine(bool IsRow, int Index, double OffDn)
{
    /// <summary>
    /// Deviations from the lines' own spread beyond which a line is none of them: of a hundred million lines that differ by
    /// chance none lies beyond six, and bands are part of the spread.
    /// </summary>
    private const double Deviations = 10;

    /// <summary>The same for each half of a line: dust or an edge stands in one of them.</summary>
    private const double HalfDeviations = 5;

    /// <summary>Lines on either side that a line is compared with: their median follows shading and edges.</summary>
    private const int Neighbours = 4;

    /// <summary>Deviation of a normal variate over the median of its magnitude.</summary>
    private const double DeviationOverMedian = 1.4826;

    /// <summary>The odd lines of a channel.</summary>
    public static IReadOnlyList<OddLine> Of(ChannelMoments channel) =>
    [
        .. Of(true, Means(channel, f => f.RowSums, channel.Columns), Means(channel, f => f.LeftRowSums, channel.Columns)),
        .. Of(false, Means(channel, f => f.ColumnSums, channel.Rows), Means(channel, f => f.UpperColumnSums, channel.Rows)),
    ];

    /// <param name="isRow">Whether the lines are rows.</param>
    /// <param name="whole">The lines' sums over their length.</param>
    /// <param name="half">What their first halves add to that.</param>
    private static IEnumerable<OddLine> Of(bool isRow, double[] whole, double[] half)
    {
        double[] off = OffNeighbours(whole);
        double[] first = OffNeighbours(half);
        double[] second = OffNeighbours([.. whole.Zip(half, (w, h) => w - h)]);
        double spread = SpreadOf(off);
        double firstSpread = SpreadOf(first);
        double secondSpread = SpreadOf(second);
        for (int i = 0; i < off.Length; i++)
        {
            double sign = Math.Sign(off[i]);
            if (spread > 0 && Math.Abs(off[i]) > Deviations * spread && sign * first[i] > HalfDeviations * firstSpread && sign * second[i] > HalfDeviations * secondSpread)
            {
                yield return new OddLine(isRow, i, off[i]);
            }
        }
    }

    private static double[] OffNeighbours(double[] lines)
    {
        double[] off = new double[lines.Length];
        double[] around = new double[(2 * Neighbours) + 1];
        for (int i = 0; i < lines.Length; i++)
        {
            int first = Math.Clamp(i - Neighbours, 0, Math.Max(0, lines.Length - around.Length));
            int count = Math.Min(around.Length, lines.Length - first);
            lines.AsSpan(first, count).CopyTo(around);
            Array.Sort(around, 0, count);
            off[i] = lines[i] - around[count / 2];
        }

        return off;
    }

    private static double SpreadOf(double[] off)
    {
        double[] magnitudes = [.. off.Select(Math.Abs).Order()];
        return DeviationOverMedian * magnitudes[magnitudes.Length / 2];
    }

    private static double[] Means(ChannelMoments channel, Func<FrameMoments, double[]> sums, double depth)
    {
        double[] means = new double[sums(channel.Frames[0]).Length];
        foreach (FrameMoments frame in channel.Frames)
        {
            double[] own = sums(frame);
            for (int i = 0; i < means.Length; i++)
            {
                means[i] += own[i] / depth / channel.Frames.Count;
            }
        }

        return means;
    }
}
