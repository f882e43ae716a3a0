using SensorLab.Frames;
using SensorLab.Law;

namespace SensorLab.Pixels.Field;

/// <summary>Finds the most evenly lit area: the largest rectangle over which the light varies little at every level, wherever it lies.</summary>
public static class RegionFinder
{
    /// <summary>Ratio of the brightest to the dimmest cell of a region (0.14 EV): what is left of it the block statistics take out.</summary>
    private const double LargestRatio = 1.10;

    /// <summary>A region smaller than this share of the map is no region: then the light is as uneven as the target is structured.</summary>
    private const double SmallestShare = 0.02;

    /// <summary>Repeats of the colour filters that a side needs: the least that is measured.</summary>
    private const int SmallestSide = 8;

    /// <summary>Photosites a side that hold what is measured at the least, wherever the mosaic begins: 8 and one more of the largest repeats, 8 × 8.</summary>
    private const int SmallestCentre = 72;

    /// <summary>Finds the region from one frame.</summary>
    /// <param name="field">A lit, unclipped frame.</param>
    /// <param name="activeArea">The active area, whose size counts.</param>
    /// <returns>
    /// A rectangle in photosites from the active area's top left: all of it where all is even; the central quarter
    /// where nothing is, or what a small frame has of its middle.
    /// </returns>
    public static PixelRectangle Find(LitField field, PixelRectangle activeArea) => Largest([(field, LargestRatio)], activeArea) ?? Centre(activeArea);

    /// <summary>Finds the region that is even in each of several frames.</summary>
    /// <param name="fields">Lit, unclipped frames of one geometry, one or more.</param>
    /// <param name="activeArea">The active area, whose size counts.</param>
    /// <returns>A rectangle in photosites from the active area's top left; null where no area is even in all frames.</returns>
    public static PixelRectangle? FindCommon(IReadOnlyList<LitField> fields, PixelRectangle activeArea) =>
        Largest([.. fields.Select(f => (f, AllowedRatio(f)))], activeArea);

    /// <summary>The ratio of the brightest to the dimmest cell that an even area may show in a frame, noise included.</summary>
    /// <param name="field">The frame.</param>
    public static double AllowedRatio(LitField field) => LargestRatio * (1 + (Significance.RangeOfCells * field.RelativeNoise));

    /// <summary>The ratio of the brightest to the dimmest cell of a region.</summary>
    /// <param name="field">The frame.</param>
    /// <param name="region">The region in photosites from the active area's top left; cells count whose centre it holds.</param>
    /// <returns>The ratio, 1 or more; infinite where a cell has no signal.</returns>
    public static double RatioIn(LitField field, PixelRectangle region)
    {
        double dimmest = double.PositiveInfinity;
        double brightest = double.NegativeInfinity;
        for (int row = 0; row < field.Map.Rows; row++)
        {
            int y = (row * field.Map.CellHeight) + (field.Map.CellHeight / 2);
            for (int column = 0; column < field.Map.Columns && y >= region.Y && y < region.Bottom; column++)
            {
                int x = (column * field.Map.CellWidth) + (field.Map.CellWidth / 2);
                if (x >= region.X && x < region.Right)
                {
                    dimmest = Math.Min(dimmest, field.SignalDn(row, column));
                    brightest = Math.Max(brightest, field.SignalDn(row, column));
                }
            }
        }

        return brightest < dimmest ? 1 : dimmest > 0 ? brightest / dimmest : double.PositiveInfinity;
    }

    private static PixelRectangle? Largest(IReadOnlyList<(LitField Field, double Ratio)> fields, PixelRectangle activeArea)
    {
        FieldMap map = fields[0].Field.Map;
        (int Left, int Top, int Right, int Bottom) best = default;
        EvenRun[] runs = [.. fields.Select(f => new EvenRun(f.Field, f.Ratio))];
        for (int top = 0; top < map.Rows; top++)
        {
            Array.ForEach(runs, r => r.Begin());
            for (int bottom = top + 1; bottom <= map.Rows; bottom++)
            {
                Array.ForEach(runs, r => r.AddRow(bottom - 1));
                (int left, int right) = Longest(runs, map.Columns, Area(best) / (bottom - top));
                bool isMeasurable = (right - left) * map.CellWidth >= SmallestSide * map.Repeat && (bottom - top) * map.CellHeight >= SmallestSide * map.Repeat;
                if (isMeasurable && (right - left) * (bottom - top) > Area(best))
                {
                    best = (left, top, right, bottom);
                }
            }
        }

        return Area(best) < SmallestShare * map.Columns * map.Rows ? null : ToPixels(best, map, activeArea);
    }

    /// <summary>The longest run of columns that is even in all frames, if it is longer than some length.</summary>
    private static (int Left, int Right) Longest(EvenRun[] runs, int columns, int longerThan)
    {
        (int Left, int Right) best = default;
        for (int left = 0; left + Math.Max(longerThan, best.Right - best.Left) < columns; left++)
        {
            int right = columns;
            foreach (EvenRun run in runs)
            {
                right = run.EndFrom(left, right);
            }

            if (right - left > best.Right - best.Left)
            {
                best = (left, right);
            }
        }

        return best;
    }

    private static int Area((int Left, int Top, int Right, int Bottom) cells) => (cells.Right - cells.Left) * (cells.Bottom - cells.Top);

    private static PixelRectangle ToPixels((int Left, int Top, int Right, int Bottom) cells, FieldMap field, PixelRectangle activeArea)
    {
        int left = cells.Left * field.CellWidth;
        int top = cells.Top * field.CellHeight;
        int right = cells.Right == field.Columns ? activeArea.Width : cells.Right * field.CellWidth;
        int bottom = cells.Bottom == field.Rows ? activeArea.Height : cells.Bottom * field.CellHeight;
        return new PixelRectangle(left, top, right - left, bottom - top);
    }

    private static PixelRectangle Centre(PixelRectangle activeArea)
    {
        int width = Math.Max(activeArea.Width / 2, Math.Min(activeArea.Width, SmallestCentre));
        int height = Math.Max(activeArea.Height / 2, Math.Min(activeArea.Height, SmallestCentre));
        return new PixelRectangle((activeArea.Width - width) / 2, (activeArea.Height - height) / 2, width, height);
    }

    /// <summary>Brightest and dimmest cell of each column over the rows looked at, in one frame.</summary>
    private sealed class EvenRun(LitField field, double ratio)
    {
        private readonly double[] _dimmest = new double[field.Map.Columns];
        private readonly double[] _brightest = new double[field.Map.Columns];

        public void Begin()
        {
            Array.Fill(_dimmest, double.PositiveInfinity);
            Array.Fill(_brightest, double.NegativeInfinity);
        }

        public void AddRow(int row)
        {
            for (int column = 0; column < _dimmest.Length; column++)
            {
                double signal = field.SignalDn(row, column);
                _dimmest[column] = Math.Min(_dimmest[column], signal);
                _brightest[column] = Math.Max(_brightest[column], signal);
            }
        }

        /// <summary>Where an even run from a column ends, no farther than a limit.</summary>
        public int EndFrom(int left, int limit)
        {
            double low = double.PositiveInfinity;
            double high = double.NegativeInfinity;
            for (int right = left; right < limit; right++)
            {
                low = Math.Min(low, _dimmest[right]);
                high = Math.Max(high, _brightest[right]);
                if (!(low > 0) || high > ratio * low)
                {
                    return right;
                }
            }

            return limit;
        }
    }
}
