namespace SensorLab.Measurement.Statistics;

/// <summary>Measures how neighbouring pixels of a channel go together, in an even sample of blocks.</summary>
/// <remarks>
/// The difference of the first two frames has the temporal noise, the sum of all frames the fixed pattern as well. Row
/// and column noise leave with the blocks' row and column means.
/// </remarks>
internal sealed class NeighbourMeter
{
    /// <summary>Pixels of a channel and level that are looked at: over an ISO's levels a correlation of 0.2 % stands out.</summary>
    private const double EnoughPixels = 65_536;

    private readonly int _stride;
    private readonly double[] _values;
    private readonly bool _dark;

    public NeighbourMeter(BlockGrid grid, bool dark)
    {
        // An odd stride does not walk down one column of blocks.
        _stride = (int)Math.Ceiling(grid.Width * (double)grid.Height / EnoughPixels) | 1;
        _values = new double[grid.TallestBlock * grid.WidestBlock];
        _dark = dark;
    }

    /// <summary>Of the scaled difference of the first two frames.</summary>
    public NeighbourSums Temporal { get; } = new();

    /// <summary>Of the sum of all frames.</summary>
    public NeighbourSums Stack { get; } = new();

    public bool Samples(int block) => block % _stride == 0;

    /// <summary>Adds a block's temporal noise, its defects still in place: copies of neighbours would look like correlation.</summary>
    public void AddTemporal(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        double scale = _dark || block.SumsOf(0).Sum <= 0 ? 1 : block.SumsOf(1).Sum / block.SumsOf(0).Sum;
        for (int row = 0; row < block.Rows; row++)
        {
            ReadOnlySpan<ushort> first = bands[0].Row(row).Slice(firstColumn, block.Columns);
            ReadOnlySpan<ushort> second = bands[1].Row(row).Slice(firstColumn, block.Columns);
            Span<double> values = _values.AsSpan(row * block.Columns, block.Columns);
            for (int column = 0; column < values.Length; column++)
            {
                values[column] = second[column] - (scale * first[column]);
            }
        }

        AddCentred(Temporal, block);
    }

    /// <summary>Adds a block's sum of all frames, its defects replaced.</summary>
    public void AddStack(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        for (int row = 0; row < block.Rows; row++)
        {
            Span<double> values = _values.AsSpan(row * block.Columns, block.Columns);
            values.Clear();
            foreach (PlaneBand band in bands)
            {
                ReadOnlySpan<ushort> own = band.Row(row).Slice(firstColumn, block.Columns);
                for (int column = 0; column < values.Length; column++)
                {
                    values[column] += own[column];
                }
            }
        }

        AddCentred(Stack, block);
    }

    private void AddCentred(NeighbourSums sums, BlockWorkspace block)
    {
        double[] columnMeans = new double[block.Columns];
        for (int row = 0; row < block.Rows; row++)
        {
            Span<double> values = _values.AsSpan(row * block.Columns, block.Columns);
            double mean = 0;
            foreach (double value in values)
            {
                mean += value / values.Length;
            }

            for (int column = 0; column < values.Length; column++)
            {
                values[column] -= mean;
                columnMeans[column] += values[column] / block.Rows;
            }
        }

        for (int row = 0; row < block.Rows; row++)
        {
            Span<double> values = _values.AsSpan(row * block.Columns, block.Columns);
            for (int column = 0; column < values.Length; column++)
            {
                values[column] -= columnMeans[column];
            }
        }

        sums.Add(_values.AsSpan(0, block.Rows * block.Columns), block.Rows, block.Columns);
    }
}
