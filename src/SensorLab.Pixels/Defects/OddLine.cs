using SensorLab.Law;
using SensorLab.Pixels.Kernels;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Defects;

/// <summary>A line of a channel that stands out of its neighbours along all of its length, in all frames of a level together.</summary>
/// <param name="IsRow">Whether it is a row; else a column.</param>
/// <param name="Photosite">Its row or column in the region.</param>
/// <param name="OffDn">Its mean less its neighbours', in DN.</param>
internal readonly record struct OddLine(bool IsRow, int Photosite, double OffDn)
{
    /// <summary>Share of its height by which a line stands out of those right beside it: all of it alone, half of it beside one of its kind.</summary>
    private const double SharpShare = 0.45;

    /// <summary>The same near the rim, where only one side is there to compare with: an edge in view is half as sharp.</summary>
    private const double RimSharpShare = 0.75;

    /// <summary>Lines on either side that a line is compared with: shading and edges go on to one of them.</summary>
    private const int Neighbours = 4;

    /// <summary>Deviation of a normal variate over the median of its magnitude.</summary>
    private const double DeviationOverMedian = 1.4826;

    /// <summary>The odd lines of a channel: all rows and columns of the region that hold it lie side by side, whatever places of the repeat they cross.</summary>
    /// <param name="planes">The channel's planes, of one size.</param>
    public static IReadOnlyList<OddLine> Of(IReadOnlyList<PlaneMoments> planes) =>
    [
        .. Of(true, Lines(planes, true, p => LineMeans.Means(p, f => f.RowSums, p.Columns)), planes[0].HasHalves(true) ? () => Lines(planes, true, p => LineMeans.Means(p, f => f.LeftRowSums, p.Columns)) : null),
        .. Of(false, Lines(planes, false, p => LineMeans.Means(p, f => f.ColumnSums, p.Rows)), planes[0].HasHalves(false) ? () => Lines(planes, false, p => LineMeans.Means(p, f => f.UpperColumnSums, p.Rows)) : null),
    ];

    /// <summary>The lines' values in the order in which they lie; of several planes each less its own median, since places may differ by design, and lines that several cross on the mean.</summary>
    private static (int[] Photosites, double[] Values) Lines(IReadOnlyList<PlaneMoments> planes, bool isRow, Func<PlaneMoments, double[]> meansOf)
    {
        if (planes.Count == 1)
        {
            double[] alone = meansOf(planes[0]);
            return ([.. Enumerable.Range(0, alone.Length).Select(line => planes[0].Place.PhotositeOf(isRow, line))], alone);
        }

        PlanePlace place = planes[0].Place;
        int photosites = isRow ? planes[0].Rows * place.RowStep : planes[0].Columns * place.ColumnStep;
        double[] sums = new double[photosites];
        int[] crossed = new int[photosites];
        double[] ranked = new double[isRow ? planes[0].Rows : planes[0].Columns];
        foreach (PlaneMoments plane in planes)
        {
            double[] means = meansOf(plane);
            means.CopyTo(ranked, 0);
            double median = Ranked.At(ranked, ranked.Length / 2);
            for (int line = 0; line < means.Length; line++)
            {
                int photosite = plane.Place.PhotositeOf(isRow, line);
                sums[photosite] += means[line] - median;
                crossed[photosite]++;
            }
        }

        int[] own = [.. Enumerable.Range(0, photosites).Where(p => crossed[p] > 0)];
        return (own, Array.ConvertAll(own, p => sums[p] / crossed[p]));
    }

    /// <param name="isRow">Whether the lines are rows.</param>
    /// <param name="lines">The lines' means over their length.</param>
    /// <param name="halvesOf">What their first halves add to that, asked only where a line stands out; null where lines are too short to have halves.</param>
    private static IEnumerable<OddLine> Of(bool isRow, (int[] Photosites, double[] Values) lines, Func<(int[] Photosites, double[] Values)>? halvesOf)
    {
        double[] whole = lines.Values;
        double[] off = OffNeighbours(whole);
        double spread = SpreadOf(off);
        int[] outstanding = [.. Enumerable.Range(0, off.Length).Where(i => spread > 0 && Math.Abs(off[i]) > Significance.OddLine * spread && IsSharp(whole, i, off[i]))];
        if (outstanding.Length == 0 || halvesOf is null)
        {
            return outstanding.Select(i => new OddLine(isRow, lines.Photosites[i], off[i]));
        }

        double[] half = halvesOf().Values;
        double[] first = OffNeighbours(half);
        double[] second = OffNeighbours([.. whole.Zip(half, (w, h) => w - h)]);
        double firstLimit = Significance.HalfOfOddLine * SpreadOf(first);
        double secondLimit = Significance.HalfOfOddLine * SpreadOf(second);
        return outstanding
            .Where(i => Math.Sign(off[i]) * first[i] > firstLimit && Math.Sign(off[i]) * second[i] > secondLimit)
            .Select(i => new OddLine(isRow, lines.Photosites[i], off[i]));
    }

    /// <summary>Each line less the median of the lines on the side that is nearer to it; 0 between both. Near the rim the inner side alone is there.</summary>
    private static double[] OffNeighbours(double[] lines)
    {
        double[] off = new double[lines.Length];
        if (lines.Length <= 2 * Neighbours)
        {
            return off;
        }

        double[] medians = new double[lines.Length - Neighbours + 1];
        for (int i = 0; i < medians.Length; i++)
        {
            medians[i] = MedianOf(lines[i], lines[i + 1], lines[i + 2], lines[i + 3]);
        }

        for (int i = 0; i < Neighbours; i++)
        {
            int mirrored = lines.Length - 1 - i;
            off[i] = lines[i] - medians[i + 1];
            off[mirrored] = lines[mirrored] - medians[mirrored - Neighbours];
        }

        for (int i = Neighbours; i < lines.Length - Neighbours; i++)
        {
            double before = lines[i] - medians[i - Neighbours];
            double after = lines[i] - medians[i + 1];
            off[i] = Math.Sign(before) != Math.Sign(after) ? 0 : Math.Abs(before) < Math.Abs(after) ? before : after;
        }

        return off;
    }

    private static double MedianOf(double a, double b, double c, double d) =>
        (Math.Max(Math.Min(a, b), Math.Min(c, d)) + Math.Min(Math.Max(a, b), Math.Max(c, d))) / 2;

    /// <summary>Whether a line stands out of the two beside it for the most of what it stands out of the others: a broad hump is in the field. The outermost is held to the course of the next two.</summary>
    private static bool IsSharp(double[] lines, int i, double off)
    {
        bool isNearRim = i < Neighbours || i >= lines.Length - Neighbours;
        double course = i == 0 ? (2 * lines[1]) - lines[2]
            : i == lines.Length - 1 ? (2 * lines[i - 1]) - lines[i - 2]
            : (lines[i - 1] + lines[i + 1]) / 2;
        return Math.Sign(off) * (lines[i] - course) > (isNearRim ? RimSharpShare : SharpShare) * Math.Abs(off);
    }

    private static double SpreadOf(double[] off)
    {
        double[] magnitudes = [.. off.Where(o => o != 0).Select(Math.Abs)];
        return magnitudes.Length == 0 ? 0 : DeviationOverMedian * Ranked.At(magnitudes, magnitudes.Length / 2);
    }
}
