using SensorLab.Frames;

namespace SensorLab.Measurement.Statistics;

/// <summary>Builds the statistics of one channel of a level, one row of blocks at a time.</summary>
internal sealed class ChannelAccumulator
{
    /// <summary>Each round finds defects an order of magnitude weaker; codes span less than five.</summary>
    private const int MostDefectRounds = 5;

    private readonly SensorChannel _channel;
    private readonly BlockGrid _grid;
    private readonly FrameMoments[] _frames;
    private readonly PlaneBand[] _bands;
    private readonly BlockWorkspace _workspace;
    private readonly DefectFilter _defectFilter;
    private readonly CodeCounter _codes;
    private readonly NeighbourMeter _neighbours;
    private int _defects;

    public ChannelAccumulator(SensorChannel channel, BlockGrid grid, int frames, bool dark)
    {
        _channel = channel;
        _grid = grid;
        _frames = Enumerable.Range(0, frames).Select(_ => new FrameMoments(grid.Height, grid.Width, grid.Count)).ToArray();
        _bands = Enumerable.Range(0, frames).Select(_ => new PlaneBand(grid.TallestBlock, grid.Width)).ToArray();
        _workspace = new BlockWorkspace(frames, grid.TallestBlock, grid.WidestBlock);
        _defectFilter = new DefectFilter(dark, frames);
        _neighbours = new NeighbourMeter(grid, dark);
        _codes = new CodeCounter(grid.Height, grid.Width, frames);
    }

    /// <summary>Where a frame's next rows go.</summary>
    public PlaneBand BandOf(int frame) => _bands[frame];

    /// <summary>Takes in the rows that now stand in the bands.</summary>
    public void AddBlockRow(int blockRow)
    {
        for (int blockColumn = 0; blockColumn < _grid.BlockColumns; blockColumn++)
        {
            AddBlock(blockRow, blockColumn);
        }

        for (int frame = 0; frame < _frames.Length; frame++)
        {
            for (int row = 0; row < _bands[frame].Rows; row++)
            {
                _codes.Count(_grid.FirstRowOf(blockRow) + row, _bands[frame].Row(row));
            }
        }
    }

    public ChannelStatistics ToStatistics((double MeanDn, long Pixels) spot) =>
        new(_channel, _grid, _frames, _codes.ToHistogram(), _defects, spot, (_neighbours.Temporal, _neighbours.Stack));

    private void AddBlock(int blockRow, int blockColumn)
    {
        int firstColumn = _grid.FirstColumnOf(blockColumn);
        _workspace.Measure(_bands, firstColumn, _grid.ColumnsOf(blockColumn));
        int block = (blockRow * _grid.BlockColumns) + blockColumn;
        bool sampled = _frames.Length > 1 && _neighbours.Samples(block);
        if (sampled)
        {
            _neighbours.AddTemporal(_bands, firstColumn, _workspace);
        }

        ReplaceDefects(firstColumn, _grid.ColumnsOf(blockColumn));
        if (sampled)
        {
            _neighbours.AddStack(_bands, firstColumn, _workspace);
        }

        for (int frame = 0; frame < _frames.Length; frame++)
        {
            FrameMoments moments = _frames[frame];
            moments.Sum += _workspace.SumsOf(frame).Sum;
            moments.BlockSums[block] = _workspace.SumsOf(frame).Sum;
            (moments.BlockSquares[block], moments.BlockProducts[block]) = _workspace.CentredOf(frame);
            AddTo(moments.RowSums.AsSpan(_grid.FirstRowOf(blockRow)), _workspace.RowSumsOf(frame));
            AddTo(moments.ColumnSums.AsSpan(firstColumn), _workspace.ColumnSumsOf(frame));
        }
    }

    /// <summary>Replaces the defects of the block just measured: a strong one hides weaker ones until it is gone.</summary>
    private void ReplaceDefects(int firstColumn, int columns)
    {
        for (int round = 0; round < MostDefectRounds; round++)
        {
            int defects = _defectFilter.Apply(_bands, firstColumn, _workspace);
            if (defects == 0)
            {
                return;
            }

            _defects += defects;
            _workspace.Measure(_bands, firstColumn, columns);
        }
    }

    private static void AddTo(Span<double> sums, ReadOnlySpan<double> terms)
    {
        for (int i = 0; i < terms.Length; i++)
        {
            sums[i] += terms[i];
        }
    }
}
