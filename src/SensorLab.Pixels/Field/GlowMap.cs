using SensorLab.Law;

namespace SensorLab.Pixels.Field;

/// <summary>A part of the field that is bright without light: the electronics beside it glow or warm it.</summary>
/// <remarks>
/// Looked for in the map of the longest dark frame, less the shortest one's where that is much shorter: what grows with
/// time stays. A glow is steep and confined; light that leaks in falls off over the whole field, and dark signal is the same
/// all over it. From a core that stands out beyond doubt it reaches as far as cells together are above the rest.
/// </remarks>
/// <param name="IsIn">Cells that glow, rows × columns of the dark maps.</param>
/// <param name="PeakDn">The brightest cell above the field's middle, in DN.</param>
/// <param name="Seconds">The exposure time of the frame that shows it.</param>
/// <param name="Place">Where it lies, from −1 (left, top) to 1 (right, bottom), weighed by brightness.</param>
internal sealed record GlowMap(bool[] IsIn, double PeakDn, double Seconds, (double X, double Y) Place)
{
    /// <summary>Exposure ratio from which on what grows with time is the most of a difference.</summary>
    private const double SmallestRatio = 4;

    /// <summary>Half a code at the brightest place: over the whole field that is less than black is known to.</summary>
    private const double SmallestDn = 0.5;

    /// <summary>Share of the field within half of its peak up to which a glow is confined: light from one side has a quarter, an edge of one cell of a small map a sixth.</summary>
    private const double LargestHalfShare = 0.18;

    /// <summary>Cells along a side that are averaged with their neighbours.</summary>
    private const double SmoothedSide = 3;

    /// <summary>The glow of an ISO's dark frames; null where there is none.</summary>
    /// <param name="darks">Statistics of its dark levels.</param>
    public static GlowMap? Of(IEnumerable<LevelStatistics> darks)
    {
        LevelStatistics[] ordered = [.. darks.OrderBy(d => d.Level.Key.ExposureSeconds)];
        if (ordered.Length == 0)
        {
            return null;
        }

        LevelStatistics longest = ordered[^1];
        FieldMap map = longest.Field;
        FieldMap? before = longest.Level.Key.ExposureSeconds > SmallestRatio * ordered[0].Level.Key.ExposureSeconds ? ordered[0].Field : null;
        double[] excess = Smoothed(map, before);
        double noise = double.Hypot(SmoothedNoise(map), before is null ? 0 : SmoothedNoise(before));
        double peak = excess.Max();
        if (!(peak > Math.Max(Significance.Glow * noise, SmallestDn)) || excess.Count(e => e > peak / 2) > LargestHalfShare * excess.Length)
        {
            return null;
        }

        bool[] isIn = Grown(excess, map.Columns, Significance.Glow * noise, Significance.ReachOfGlow * noise);
        double[] weights = [.. excess.Select((e, i) => isIn[i] ? e : 0)];
        double total = weights.Sum();
        return new GlowMap(
            isIn,
            peak,
            longest.Level.Key.ExposureSeconds,
            (weights.Select((w, i) => w * Centred(i % map.Columns, map.Columns)).Sum() / total, weights.Select((w, i) => w * Centred(i / map.Columns, map.Rows)).Sum() / total));
    }

    /// <summary>Standard deviation in DN of a mean over a cell and those around it, three to a row.</summary>
    private static double SmoothedNoise(FieldMap map) => double.Hypot(map.NoiseDn / SmoothedSide, map.RowNoiseDn / Math.Sqrt(SmoothedSide));

    private static double Centred(int cell, int cells) => (((2 * cell) + 1.0) / cells) - 1;

    /// <summary>Means of each cell with those around it, less the field's median.</summary>
    private static double[] Smoothed(FieldMap map, FieldMap? before)
    {
        double[] smoothed = new double[map.Rows * map.Columns];
        for (int i = 0; i < smoothed.Length; i++)
        {
            double sum = 0;
            int cells = 0;
            foreach ((int row, int column) in Around(i, map.Columns, map.Rows))
            {
                sum += map[row, column] - (before?[row, column] ?? 0);
                cells++;
            }

            smoothed[i] = sum / cells;
        }

        double median = smoothed.Order().ElementAt(smoothed.Length / 2);
        return [.. smoothed.Select(s => s - median)];
    }

    /// <summary>Cells above a threshold that hang together with one above a higher one.</summary>
    private static bool[] Grown(double[] excess, int columns, double core, double reach)
    {
        bool[] isIn = new bool[excess.Length];
        var open = new Queue<int>(Enumerable.Range(0, excess.Length).Where(i => excess[i] > core));
        while (open.TryDequeue(out int cell))
        {
            if (isIn[cell] || excess[cell] <= reach)
            {
                continue;
            }

            isIn[cell] = true;
            foreach ((int row, int column) in Around(cell, columns, excess.Length / columns))
            {
                open.Enqueue((row * columns) + column);
            }
        }

        return isIn;
    }

    private static IEnumerable<(int Row, int Column)> Around(int cell, int columns, int rows) =>
        from row in Enumerable.Range((cell / columns) - 1, 3)
        from column in Enumerable.Range((cell % columns) - 1, 3)
        where row >= 0 && row < rows && column >= 0 && column < columns
        select (row, column);
}
