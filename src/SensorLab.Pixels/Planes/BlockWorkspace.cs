using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Planes;

/// <summary>The moments of all frames in one block, before they join those of the region.</summary>
internal sealed class BlockWorkspace
{
    private readonly int _frames;
    private readonly double[] _scratch;
    private readonly int[][] _rowSums;
    private readonly int[][] _columnSums;
    private readonly SegmentSums[] _sums;
    private readonly (double Squares, double Products)[] _centred;
    private PairLanes _pair;
    private int _firstColumn;

    /// <summary>Makes room for one block.</summary>
    /// <param name="frames">Frames of the level.</param>
    /// <param name="tallest">Rows that the block has at most.</param>
    /// <param name="widest">Columns that it has at most.</param>
    /// <param name="scratch">As many values as the larger of both: what blocks that are worked on in turn share.</param>
    public BlockWorkspace(int frames, int tallest, int widest, double[] scratch)
    {
        _frames = frames;
        _scratch = scratch;
        _rowSums = Enumerable.Range(0, frames).Select(_ => new int[tallest]).ToArray();
        _columnSums = Enumerable.Range(0, frames).Select(_ => new int[widest]).ToArray();
        _sums = new SegmentSums[frames];
        _centred = new (double, double)[frames];
    }

    public int Rows { get; private set; }

    public int Columns { get; private set; }

    /// <summary>Lowest and highest sum of all frames at one site.</summary>
    public (double Lowest, double Highest) StackExtremes { get; private set; }

    public SegmentSums SumsOf(int frame) => _sums[frame];

    public ReadOnlySpan<int> RowSumsOf(int frame) => _rowSums[frame].AsSpan(0, Rows);

    public ReadOnlySpan<int> ColumnSumsOf(int frame) => _columnSums[frame].AsSpan(0, Columns);

    /// <summary>Measures a whole block at once.</summary>
    public void Measure(ReadOnlySpan<PlaneBand> bands, int firstColumn, int columns)
    {
        Begin(firstColumn, columns);
        AddRows(bands, 0, bands[0].Rows);
        Finish();
    }

    /// <summary>Forgets the last block and starts one of some columns.</summary>
    public void Begin(int firstColumn, int columns)
    {
        _firstColumn = firstColumn;
        Columns = columns;
        Rows = 0;
        Array.Clear(_sums);
        foreach (int[] columnSums in _columnSums)
        {
            Array.Clear(columnSums);
        }

        _pair = new PairLanes();
        StackExtremes = (double.PositiveInfinity, double.NegativeInfinity);
    }

    /// <summary>Takes in rows of all frames.</summary>
    public void AddRows(ReadOnlySpan<PlaneBand> bands, int first, int count)
    {
        int end = first + count;
        int bits = _frames == 2 ? bands[0].Bits | bands[1].Bits : ushort.MaxValue;
        int row = first;
        while (row <= end - PairKernel.RowsAtOnce && PairKernel.CanAddRows(bits, Columns))
        {
            AddPairRows(bands, row);
            row += PairKernel.RowsAtOnce;
        }

        for (; row < end; row++)
        {
            if (PairKernel.CanAddRow(bits, Columns))
            {
                AddPairRow(bands, row);
            }
            else
            {
                AddFrames(bands, row);
            }
        }

        Rows = end;
    }

    /// <summary>A frame's sum of squares and its products with the earlier frames, row and column means taken out.</summary>
    public (double Squares, double Products) CentredOf(int frame) => _centred[frame];

    /// <summary>Takes out row and column means once all rows are in.</summary>
    public void Finish()
    {
        AddPair();
        double sites = (double)Rows * Columns;
        double earlierTotal = 0;
        for (int frame = 0; frame < _frames; frame++)
        {
            double total = 0;
            foreach (int sum in RowSumsOf(frame))
            {
                total += sum;
            }

            _sums[frame] = _sums[frame] with { Sum = total };
            _centred[frame] = (
                _sums[frame].Squares + (total * total / sites),
                _sums[frame].Products + (total * earlierTotal / sites));
            earlierTotal += total;
        }

        TakeOutMeans(_rowSums, Rows, Columns);
        TakeOutMeans(_columnSums, Columns, Rows);
    }

    private void AddPairRows(ReadOnlySpan<PlaneBand> bands, int row)
    {
        (Vector128<int> first, Vector128<int> second) = PairKernel.AddRows(
            bands[0].From(row)[_firstColumn..], bands[1].From(row)[_firstColumn..], bands[0].Width, _columnSums[0].AsSpan(0, Columns), _columnSums[1].AsSpan(0, Columns), ref _pair);
        first.CopyTo(_rowSums[0], row);
        second.CopyTo(_rowSums[1], row);
    }

    private void AddPairRow(ReadOnlySpan<PlaneBand> bands, int row) => (_rowSums[0][row], _rowSums[1][row]) = PairKernel.AddRow(
        bands[0].Row(row).Slice(_firstColumn, Columns), bands[1].Row(row).Slice(_firstColumn, Columns), _columnSums[0], _columnSums[1], ref _pair);

    private void AddPair()
    {
        if (!_pair.IsEmpty)
        {
            PairSums pair = _pair.Total();
            _sums[0] += pair.First;
            _sums[1] += pair.Second;
            Widen(pair.LowestStack, pair.HighestStack);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void AddFrames(ReadOnlySpan<PlaneBand> bands, int row)
    {
        Span<double> earlier = _scratch.AsSpan(0, Columns);
        for (int frame = 0; frame < _frames; frame++)
        {
            ReadOnlySpan<ushort> values = bands[frame].Row(row).Slice(_firstColumn, Columns);
            Add(frame, row, frame == 0
                ? SegmentKernel.AddFirst(values, earlier, _columnSums[frame])
                : SegmentKernel.Add(values, earlier, _columnSums[frame]));
        }

        (double low, double high) = Extremes.Of(earlier);
        Widen(low, high);
    }

    private void Add(int frame, int row, SegmentSums segment)
    {
        _rowSums[frame][row] = (int)segment.Sum;
        _sums[frame] += segment;
    }

    private void Widen(double low, double high) =>
        StackExtremes = (Math.Min(StackExtremes.Lowest, low), Math.Max(StackExtremes.Highest, high));

    private void TakeOutMeans(int[][] sums, int length, double divisor)
    {
        Span<double> earlier = _scratch.AsSpan(0, length);
        earlier.Clear();
        for (int frame = 0; frame < _frames; frame++)
        {
            (double squares, double products) = _centred[frame];
            for (int i = 0; i < length; i++)
            {
                double own = sums[frame][i];
                squares -= own * own / divisor;
                products -= own * earlier[i] / divisor;
                earlier[i] += own;
            }

            _centred[frame] = (squares, products);
        }
    }
}
