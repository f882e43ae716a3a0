using System.Runtime.Intrinsics;
using SensorLab.Pixels.Codes;
using SensorLab.Pixels.Defects;
using SensorLab.Pixels.Kernels;
using SensorLab.Pixels.Neighbours;

namespace SensorLab.Pixels.Planes;

/// <summary>Sums up the sites of one plane over the frames of a level, one row of blocks at a time.</summary>
internal sealed class PlaneAccumulator : IDisposable
{
    /// <summary>Each round finds defects an order of magnitude weaker; codes span less than five.</summary>
    private const int MostDefectRounds = 5;

    private readonly PlanePlace _place;
    private readonly BlockGrid _grid;
    private readonly FrameMoments[] _frames;
    private readonly PlaneBand[] _bands;
    private readonly BlockWorkspace[] _blocks;
    private readonly DefectFilter _defectFilter;
    private readonly CodeCounter _codes;
    private readonly NeighbourMeter _neighbours;
    private readonly (double Sum, double Squares)[] _asRead;
    private readonly double[] _lostDegrees;
    private readonly bool _dark;
    private readonly HashSet<int> _sites = [];
    private readonly IReadOnlyList<int> _known;
    private readonly List<(int Row, int Column)> _knownOfRow = [];
    private int _nextKnown;
    private int _defects;
    private int _rowsTaken;

    /// <summary>Starts a plane.</summary>
    /// <param name="place">Where its sites lie.</param>
    /// <param name="grid">Its blocks.</param>
    /// <param name="frames">Frames of the level.</param>
    /// <param name="dark">Whether they are dark ones.</param>
    /// <param name="known">Its defective sites, as far as dark frames showed them, rising.</param>
    /// <param name="codes">Counts the channel's codes; not disposed with this.</param>
    public PlaneAccumulator(PlanePlace place, BlockGrid grid, int frames, bool dark, IReadOnlyList<int> known, CodeCounter codes)
    {
        _place = place;
        _dark = dark;
        _known = known;
        _grid = grid;
        _frames = Enumerable.Range(0, frames).Select(_ => new FrameMoments(grid.Height, grid.Width, grid.Count)).ToArray();
        (int tallest, int widest) = (grid.TallestBlock, grid.WidestBlock);
        _bands = Enumerable.Range(0, frames).Select(_ => new PlaneBand(tallest, grid.Width)).ToArray();
        double[] scratch = new double[Math.Max(tallest, widest)];
        _blocks = Enumerable.Range(0, grid.BlockColumns).Select(_ => new BlockWorkspace(frames, tallest, widest, scratch)).ToArray();
        _defectFilter = new DefectFilter(dark, frames);
        _neighbours = new NeighbourMeter(grid, place.RowStep * place.ColumnStep, frames, dark);
        _codes = codes;
        _asRead = new (double, double)[frames];
        _lostDegrees = new double[grid.Count];
    }

    /// <summary>Sum and sum of squares of a frame's values as they were read, defects in place.</summary>
    public (double Sum, double Squares) AsReadOf(int frame) => _asRead[frame];

    /// <summary>Where a frame's next rows go.</summary>
    public PlaneBand BandOf(int frame) => _bands[frame];

    /// <summary>Temporal noise, a pair of frames at a time, in the blocks sampled of the last row of blocks: the same in every plane.</summary>
    public ReadOnlySpan<BlockResiduals> SampledNoise => _neighbours.Noise;

    /// <summary>The sum of all frames in each of these blocks.</summary>
    public ReadOnlySpan<BlockResiduals> SampledStack => _neighbours.StackNoise;

    /// <summary>How neighbours of the plane go together.</summary>
    public (NeighbourSums Temporal, NeighbourSums Stack) Neighbours => (_neighbours.Temporal, _neighbours.Stack);

    /// <summary>Where its sites lie.</summary>
    public PlanePlace Place => _place;

    /// <summary>Defective pixels that a neighbour replaced, and where those of a dark level lie: row × width + column, rising.</summary>
    public (int Count, IReadOnlyList<int> Sites) Defects => (_defects, [.. _sites.Order()]);

    /// <summary>The moments, once all rows of blocks are in.</summary>
    public PlaneMoments Moments => new(_grid, _frames, _place, _lostDegrees);

    /// <summary>Starts a row of blocks.</summary>
    public void BeginBlockRow()
    {
        _rowsTaken = 0;
        _neighbours.BeginBlockRow();
        for (int blockColumn = 0; blockColumn < _grid.BlockColumns; blockColumn++)
        {
            _blocks[blockColumn].Begin(_grid.FirstColumnOf(blockColumn), _grid.ColumnsOf(blockColumn));
        }
    }

    /// <summary>A row now stands in all frames' bands: a few at a time are taken in, while they are still in the cache.</summary>
    public void AddRow(int bandRow)
    {
        if (bandRow + 1 - _rowsTaken == PairKernel.RowsAtOnce)
        {
            TakeRows(bandRow + 1);
        }
    }

    /// <summary>Ends a row of blocks: defects are replaced, and the blocks join the region.</summary>
    public void FinishBlockRow(int blockRow)
    {
        TakeRows(_bands[0].Rows);
        TakeKnown(blockRow);
        for (int blockColumn = 0; blockColumn < _grid.BlockColumns; blockColumn++)
        {
            FinishBlock(blockRow, blockColumn);
        }

        for (int frame = 0; frame < _frames.Length; frame++)
        {
            for (int row = 0; row < _bands[frame].Rows; row++)
            {
                _codes.Count(_grid.FirstRowOf(blockRow) + row, _bands[frame].Row(row));
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (PlaneBand band in _bands)
        {
            band.Dispose();
        }
    }

    private void TakeRows(int end)
    {
        foreach (BlockWorkspace block in _blocks)
        {
            block.AddRows(_bands, _rowsTaken, end - _rowsTaken);
        }

        _rowsTaken = end;
    }

    private void FinishBlock(int blockRow, int blockColumn)
    {
        BlockWorkspace workspace = _blocks[blockColumn];
        int firstColumn = _grid.FirstColumnOf(blockColumn);
        workspace.Finish();
        for (int frame = 0; frame < _asRead.Length; frame++)
        {
            SegmentSums sums = workspace.SumsOf(frame);
            _asRead[frame] = (_asRead[frame].Sum + sums.Sum, _asRead[frame].Squares + sums.Squares);
        }

        int block = (blockRow * _grid.BlockColumns) + blockColumn;
        bool sampled = _neighbours.Samples(block);
        if (sampled)
        {
            _neighbours.AddTemporal(_bands, firstColumn, workspace);
        }

        IReadOnlyList<ReplacedPixel> replaced = ReplaceDefects(workspace, blockRow, firstColumn, _grid.ColumnsOf(blockColumn));
        _defects += replaced.Count;
        _lostDegrees[block] = ReplacedPixel.LostDegrees(replaced, _grid.RowsOf(blockRow), _grid.ColumnsOf(blockColumn));
        if (sampled)
        {
            _neighbours.AddStack(_bands, firstColumn, workspace);
        }

        for (int frame = 0; frame < _frames.Length; frame++)
        {
            FrameMoments moments = _frames[frame];
            moments.Sum += workspace.SumsOf(frame).Sum;
            moments.BlockSums[block] = workspace.SumsOf(frame).Sum;
            (moments.BlockSquares[block], moments.BlockProducts[block]) = workspace.CentredOf(frame);
            AddTo(moments.RowSums.AsSpan(_grid.FirstRowOf(blockRow)), workspace.RowSumsOf(frame));
            AddTo(moments.ColumnSums.AsSpan(firstColumn), workspace.ColumnSumsOf(frame));
            if (2 * blockColumn < _grid.BlockColumns)
            {
                AddTo(moments.LeftRowSums.AsSpan(_grid.FirstRowOf(blockRow)), workspace.RowSumsOf(frame));
            }

            if (2 * blockRow < _grid.BlockRows)
            {
                AddTo(moments.UpperColumnSums.AsSpan(firstColumn), workspace.ColumnSumsOf(frame));
            }
        }
    }

    /// <summary>Replaces the defects of the block just measured: a strong one hides weaker ones until it is gone.</summary>
    private List<ReplacedPixel> ReplaceDefects(BlockWorkspace workspace, int blockRow, int firstColumn, int columns)
    {
        List<ReplacedPixel> replaced = ReplaceKnown(workspace, firstColumn, columns);
        for (int round = 0; round < MostDefectRounds; round++)
        {
            IReadOnlyList<ReplacedPixel> defects = _defectFilter.Apply(_bands, firstColumn, workspace);
            if (defects.Count == 0)
            {
                break;
            }

            replaced.AddRange(defects);
            if (_dark)
            {
                _sites.UnionWith(defects.Select(d => ((_grid.FirstRowOf(blockRow) + d.Row) * _grid.Width) + d.Column));
            }

            workspace.Measure(_bands, firstColumn, columns);
        }

        return replaced;
    }

    /// <summary>Replaces what the darks showed in the block just measured.</summary>
    private List<ReplacedPixel> ReplaceKnown(BlockWorkspace workspace, int firstColumn, int columns)
    {
        List<ReplacedPixel> replaced = [];
        (int Row, int Column)[] known = [.. _knownOfRow.Where(site => site.Column >= firstColumn && site.Column < firstColumn + columns)];
        foreach (IGrouping<int, int> row in known.GroupBy(site => site.Row, site => site.Column - firstColumn))
        {
            bool[] defects = new bool[columns];
            foreach (int column in row)
            {
                defects[column] = true;
            }

            foreach (int column in row)
            {
                replaced.Add(DefectFilter.Replace(_bands, row.Key, firstColumn, column, defects));
            }
        }

        if (known.Length > 0)
        {
            workspace.Measure(_bands, firstColumn, columns);
        }

        return replaced;
    }

    /// <summary>The known defects of a row of blocks, by row in the bands.</summary>
    private void TakeKnown(int blockRow)
    {
        int first = _grid.FirstRowOf(blockRow);
        int end = (first + _grid.RowsOf(blockRow)) * _grid.Width;
        _knownOfRow.Clear();
        while (_nextKnown < _known.Count && _known[_nextKnown] < end)
        {
            int site = _known[_nextKnown++];
            _knownOfRow.Add(((site / _grid.Width) - first, site % _grid.Width));
        }
    }

    private static void AddTo(Span<double> sums, ReadOnlySpan<int> terms)
    {
        int i = 0;
        for (; i <= terms.Length - Vector256<double>.Count; i += Vector256<double>.Count)
        {
            Span<double> four = sums.Slice(i, Vector256<double>.Count);
            Vector128<int> own = Vector128.Create(terms[i..]);
            (Vector256.Create(four) + Vector256.Create(Vector128.ConvertToDouble(Vector128.WidenLower(own)), Vector128.ConvertToDouble(Vector128.WidenUpper(own)))).CopyTo(four);
        }

        for (; i < terms.Length; i++)
        {
            sums[i] += terms[i];
        }
    }
}
