using SensorLab.Frames;

namespace SensorLab.Measurement.Statistics;

/// <summary>Finds the most evenly lit area: the largest rectangle over which the light varies little, wherever it lies.</summary>
public static class RegionFinder
{
    /// <summary>Ratio of the brightest to the dimmest cell of a region (0.14 EV): what is left of it the block statistics take out.</summary>
    private const double LargestRatio = 1.10;

    /// <summary>A region smaller than this share of the map is no region: then the light is as uneven as the target is structured.</summary>
    private const double SmallestShare = 0.02;

    /// <summary>Finds the region of a frame set.</summary>
    /// <param name="field">A lit, unclipped frame.</param>
    /// <param name="blackDn">Black level in DN.</param>
    /// <param name="activeArea">The active area, whose size counts.</param>
    /// <returns>
    /// A rectangle in photosites from the active area's top left: all of it where all is even; the central quarter
    /// where nothing is.
    /// </returns>
    public static PixelRectangle Find(FieldMap field, double blackDn, PixelRectangle activeArea)
    {
        (int Left, int Top, int Right, int Bottom) best = default;
        for (int top = 0; top < field.Rows; top++)
        {
            double[] dimmest = [.. Enumerable.Repeat(double.PositiveInfinity, field.Columns)];
            double[] brightest = [.. Enumerable.Repeat(double.NegativeInfinity, field.Columns)];
            for (int bottom = top + 1; bottom <= field.Rows; bottom++)
            {
                for (int column = 0; column < field.Columns; column++)
                {
                    double signal = field[bottom - 1, column] - blackDn;
                    dimmest[column] = Math.Min(dimmest[column], signal);
                    brightest[column] = Math.Max(brightest[column], signal);
                }

                (int left, int right) = LongestEvenRun(dimmest, brightest);
                if ((right - left) * (bottom - top) > Area(best))
                {
                    best = (left, top, right, bottom);
                }
            }
        }

        return Area(best) < SmallestShare * field.Columns * field.Rows ? Centre(activeArea) : ToPixels(best, field, activeArea);
    }

    private static (int Left, int Right) LongestEvenRun(double[] dimmest, double[] brightest)
    {
        (int Left, int Right) best = default;
        for (int left = 0; left < dimmest.Length; left++)
        {
            double low = double.PositiveInfinity;
            double high = double.NegativeInfinity;
            int right = left;
            for (; right < dimmest.Length; right++)
            {
                low = Math.Min(low, dimmest[right]);
                high = Math.Max(high, brightest[right]);
                if (!(low > 0) || high > LargestRatio * low)
                {
                    break;
                }
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

    private static PixelRectangle Centre(PixelRectangle activeArea) =>
        new(activeArea.Width / 4, activeArea.Height / 4, activeArea.Width / 2, activeArea.Height / 2);
}
