namespace SensorLab.Measurement.Statistics;

/// <summary>Finds defective pixels and puts a neighbour of the same channel in their place, in all frames of the level.</summary>
/// <remarks>
/// A pixel is judged in the sum of the level's frames, so that only what all frames share counts, against the row and
/// column means of its block. At the thresholds used, a normal distribution loses less than 2·10⁻⁵ of its variance,
/// while one pixel in a thousand at six standard deviations would add 4 %.
/// </remarks>
internal sealed class DefectFilter
{
    /// <summary>Standard deviations of the frames' sum in a dark level.</summary>
    private const double DarkThreshold = 5.0;

    /// <summary>The same in a lit level, where few electrons make a skewed distribution.</summary>
    private const double LitThreshold = 6.5;

    /// <summary>Codes a frame below which nothing is a defect: rounding alone does as much.</summary>
    private const double SmallestCodes = 2.5;

    private readonly double _threshold;
    private readonly int _frames;

    public DefectFilter(bool dark, int frames)
    {
        _threshold = dark ? DarkThreshold : LitThreshold;
        _frames = frames;
    }

    /// <summary>Replaces the defects of a block.</summary>
    /// <returns>The pixels replaced, by row and column of the bands.</returns>
    public IReadOnlyList<(int Row, int Column)> Apply(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        double limit = LimitOf(block);
        double mean = Enumerable.Range(0, _frames).Sum(f => block.SumsOf(f).Sum) / ((double)block.Rows * block.Columns);
        if (block.StackExtremes.Highest - mean <= limit && mean - block.StackExtremes.Lowest <= limit)
        {
            return [];
        }

        List<(int Row, int Column)> replaced = [];
        for (int row = 0; row < block.Rows; row++)
        {
            double rowMean = StackMean(block, row, rows: true);
            for (int column = 0; column < block.Columns; column++)
            {
                double expected = rowMean + StackMean(block, column, rows: false) - mean;
                if (Math.Abs(StackAt(bands, row, firstColumn + column) - expected) > limit)
                {
                    Replace(bands, row, firstColumn, firstColumn + column, block.Columns);
                    replaced.Add((row, firstColumn + column));
                }
            }
        }

        return replaced;
    }

    private double LimitOf(BlockWorkspace block)
    {
        double squares = 0;
        for (int frame = 0; frame < _frames; frame++)
        {
            (double own, double products) = block.CentredOf(frame);
            squares += own + (2 * products);
        }

        double degrees = (double)(block.Rows - 1) * (block.Columns - 1);
        return Math.Max(_threshold * Math.Sqrt(Math.Max(squares, 0) / degrees), SmallestCodes * _frames);
    }

    private double StackMean(BlockWorkspace block, int at, bool rows)
    {
        double sum = 0;
        for (int frame = 0; frame < _frames; frame++)
        {
            sum += rows ? block.RowSumsOf(frame)[at] : block.ColumnSumsOf(frame)[at];
        }

        return sum / (rows ? block.Columns : block.Rows);
    }

    private static double StackAt(ReadOnlySpan<PlaneBand> bands, int row, int column)
    {
        double sum = 0;
        for (int frame = 0; frame < bands.Length; frame++)
        {
            sum += bands[frame].Row(row)[column];
        }

        return sum;
    }

    /// <summary>Puts a neighbour in a pixel's place, in all frames.</summary>
    /// <param name="bands">The frames' rows.</param>
    /// <param name="row">Row of the bands.</param>
    /// <param name="firstColumn">First column of the block.</param>
    /// <param name="column">Column of the pixel.</param>
    /// <param name="columns">Columns of the block.</param>
    public static void Replace(ReadOnlySpan<PlaneBand> bands, int row, int firstColumn, int column, int columns)
    {
        int neighbour = column > firstColumn ? column - 1 : Math.Min(column + 1, firstColumn + columns - 1);
        for (int frame = 0; frame < bands.Length; frame++)
        {
            Span<ushort> values = bands[frame].Row(row);
            values[column] = values[neighbour];
        }
    }
}
