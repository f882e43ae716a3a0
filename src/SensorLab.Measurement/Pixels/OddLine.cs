namespace SensorLab.Measurement.Pixels;

/// <summary>A line of a channel that stands out of its neighbours along all of its length, in all frames of a level together.</summary>
/// <param name="IsRow">Whether it is a row; else a column.</param>
/// <param name="Index">Its index in the channel's plane of the region.</param>
/// <param name="OffDn">Its mean less its neighbours', in DN.</param>
internal readonly record struct OddLine(bool IsRow, int Index, double OffDn)
{


    /// <summary>Share of its height by which a line stands out of those right beside it: all of it alone, half of it beside one of its kind.</summary>
    private const double SharpShare = 0.45;

    /// <summary>Lines on either side that a line is compared with: shading and edges go on to one of them.</summary>
    private const int Neighbours = 4;

    /// <summary>Deviation of a normal variate over the median of its magnitude.</summary>
    private const double DeviationOverMedian = 1.4826;

    /// <summary>The odd lines of a channel.</summary>
    public static IReadOnlyList<OddLine> Of(ChannelMoments channel) =>
    [
        .. Of(true, LineMeans.Means(channel, f => f.RowSums, channel.Columns), LineMeans.Means(channel, f => f.LeftRowSums, channel.Columns)),
        .. Of(false, LineMeans.Means(channel, f => f.ColumnSums, channel.Rows), LineMeans.Means(channel, f => f.UpperColumnSums, channel.Rows)),
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
            if (spread > 0 && Math.Abs(off[i]) > Significance.OddLine * spread && sign * first[i] > Significance.HalfOfOddLine * firstSpread && sign * second[i] > Significance.HalfOfOddLine * secondSpread && IsSharp(whole, i, off[i]))
            {
                yield return new OddLine(isRow, i, off[i]);
            }
        }
    }

    /// <summary>Each line less the median of the lines on the side that is nearer to it; 0 between both, and at the rim, where there is one side alone.</summary>
    private static double[] OffNeighbours(double[] lines)
    {
        double[] off = new double[lines.Length];
        for (int i = Neighbours; i < lines.Length - Neighbours; i++)
        {
            double before = lines[i] - MedianOf(lines.AsSpan(i - Neighbours, Neighbours));
            double after = lines[i] - MedianOf(lines.AsSpan(i + 1, Neighbours));
            off[i] = Math.Sign(before) != Math.Sign(after) ? 0 : Math.Abs(before) < Math.Abs(after) ? before : after;
        }

        return off;
    }

    private static double MedianOf(ReadOnlySpan<double> four)
    {
        Span<double> sorted = stackalloc double[Neighbours];
        four.CopyTo(sorted);
        sorted.Sort();
        return (sorted[(Neighbours / 2) - 1] + sorted[Neighbours / 2]) / 2;
    }

    /// <summary>Whether a line stands out of the two beside it for the most of what it stands out of the others: a broad hump is in the field.</summary>
    private static bool IsSharp(double[] lines, int i, double off) =>
        Math.Sign(off) * (lines[i] - ((lines[i - 1] + lines[i + 1]) / 2)) > SharpShare * Math.Abs(off);

    private static double SpreadOf(double[] off)
    {
        double[] magnitudes = [.. off.Where(o => o != 0).Select(Math.Abs).Order()];
        return magnitudes.Length == 0 ? 0 : DeviationOverMedian * magnitudes[magnitudes.Length / 2];
    }
}
