namespace SensorLab.Measurement.Pixels;

/// <summary>A line of a channel that stands out of its neighbours along all of its length, in all frames of a level together.</summary>
/// <param name="IsRow">Whether it is a row; else a column.</param>
/// <param name="Photosite">Its row or column in the region.</param>
/// <param name="OffDn">Its mean less its neighbours', in DN.</param>
internal readonly record struct OddLine(bool IsRow, int Photosite, double OffDn)
{
    /// <summary>Share of its height by which a line stands out of those right beside it: all of it alone, half of it beside one of its kind.</summary>
    private const double SharpShare = 0.45;

    /// <summary>Lines on either side that a line is compared with: shading and edges go on to one of them.</summary>
    private const int Neighbours = 4;

    /// <summary>Deviation of a normal variate over the median of its magnitude.</summary>
    private const double DeviationOverMedian = 1.4826;

    /// <summary>The odd lines of a channel: all rows and columns of the region that hold it lie side by side, whatever places of the repeat they cross.</summary>
    /// <param name="planes">The channel's planes, of one size.</param>
    public static IReadOnlyList<OddLine> Of(IReadOnlyList<PlaneMoments> planes) =>
    [
        .. Of(true, Lines(planes, true, p => LineMeans.Means(p, f => f.RowSums, p.Columns)), Lines(planes, true, p => LineMeans.Means(p, f => f.LeftRowSums, p.Columns))),
        .. Of(false, Lines(planes, false, p => LineMeans.Means(p, f => f.ColumnSums, p.Rows)), Lines(planes, false, p => LineMeans.Means(p, f => f.UpperColumnSums, p.Rows))),
    ];

    /// <summary>The lines' values in the order in which they lie; of several planes each less its own median, since places may differ by design, and lines that several cross on the mean.</summary>
    private static (int Photosite, double Value)[] Lines(IReadOnlyList<PlaneMoments> planes, bool isRow, Func<PlaneMoments, double[]> meansOf)
    {
        if (planes.Count == 1)
        {
            return [.. meansOf(planes[0]).Select((value, line) => (planes[0].Place.PhotositeOf(isRow, line), value))];
        }

        return [.. planes
            .SelectMany(plane =>
            {
                double[] means = meansOf(plane);
                double[] sorted = [.. means.Order()];
                double median = sorted[sorted.Length / 2];
                return means.Select((value, line) => (Photosite: plane.Place.PhotositeOf(isRow, line), Value: value - median));
            })
            .GroupBy(line => line.Photosite, line => line.Value)
            .OrderBy(line => line.Key)
            .Select(line => (line.Key, line.Average()))];
    }

    /// <param name="isRow">Whether the lines are rows.</param>
    /// <param name="lines">The lines' means over their length.</param>
    /// <param name="halves">What their first halves add to that.</param>
    private static IEnumerable<OddLine> Of(bool isRow, (int Photosite, double Value)[] lines, (int Photosite, double Value)[] halves)
    {
        double[] whole = [.. lines.Select(l => l.Value)];
        double[] half = [.. halves.Select(l => l.Value)];
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
                yield return new OddLine(isRow, lines[i].Photosite, off[i]);
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
