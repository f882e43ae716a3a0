using System.Numerics;
using System.Runtime.CompilerServices;

namespace SensorLab.Measurement.Statistics;

/// <summary>The moments of all frames in one block, before they join those of the region.</summary>
internal sealed class BlockWorkspace
{
    private readonly int _frames;
    private readonly double[] _earlier;
    private readonly double[][] _rowSums;
    private readonly int[][] _columnSums;
    private readonly SegmentSums[] _sums;
    private readonly (double Squares, double Products)[] _centred;
    private readonly double[] _earlierProfile;
    private int _firstColumn;

    public BlockWorkspace(int frames, int tallest, int widest)
    {
        _frames = frames;
        _earlier = new double[widest];
        _rowSums = Enumerable.Range(0, frames).Select(_ => new double[tallest]).ToArray();
        _columnSums = Enumerable.Range(0, frames).Select(_ => new int[widest]).ToArray();
        _sums = new SegmentSums[frames];
        _centred = new (double, double)[frames];
        _earlierProfile = new double[Math.Max(tallest, widest)];
    }

    public int Rows { get; private set; }

    public int Columns { get; private set; }

    /// <summary>Lowest and highest sum of all frames at one site.</summary>
    public (double Lowest, double Highest) StackExtremes { get; private set; }

    public SegmentSums SumsOf(int frame) => _sums[frame];

    public ReadOnlySpan<double> RowSumsOf(int frame) => _rowSums[frame].AsSpan(0, Rows);

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

        StackExtremes = (double.PositiveInfinity, double.NegativeInfinity);
    }

    /// <summary>Takes in rows of all frames.</summary>
    public void AddRows(ReadOnlySpan<PlaneBand> bands, int first, int count)
    {
        int end = first + count;
        for (int row = first; row < end;)
        {
            if (_frames == 2 && end - row >= PairKernel.RowsAtOnce && TryAddPairRows(bands, row))
            {
                row += PairKernel.RowsAtOnce;
            }
            else
            {
                if (_frames != 2 || !TryAddPair(bands, row))
                {
                    AddFrames(bands, row);
                }

                row++;
            }
        }

        Rows = end;
    }

    /// <summary>A frame's sum of squares and its products with the earlier frames, row and column means taken out.</summary>
    public (double Squares, double Products) CentredOf(int frame) => _centred[frame];

    /// <summary>Takes out row and column means once all rows are in.</summary>
    public void Finish()
    {
        double sites = (double)Rows * Columns;
        double earlierTotal = 0;
        for (int frame = 0; frame < _frames; frame++)
        {
            double total = _sums[frame].Sum;
            _centred[frame] = (
                _sums[frame].Squares + (total * total / sites),
                _sums[frame].Products + (total * earlierTotal / sites));
            earlierTotal += total;
        }

        TakeOutMeans(_rowSums, Rows, Columns);
        TakeOutMeans(_columnSums, Columns, Rows);
    }

    private bool TryAddPairRows(ReadOnlySpan<PlaneBand> bands, int row)
    {
        Span<int> rowSums = stackalloc int[2 * PairKernel.RowsAtOnce];
        ReadOnlySpan<ushort> first = bands[0].From(row)[_firstColumn..];
        ReadOnlySpan<ushort> second = bands[1].From(row)[_firstColumn..];
        bool isDone = PairKernel.TryAddRows(
            first, second, bands[0].Width, Columns, _columnSums[0], _columnSums[1], rowSums, out PairSums sums);
        for (int i = 0; isDone && i < PairKernel.RowsAtOnce; i++)
        {
            _rowSums[0][row + i] = rowSums[i];
            _rowSums[1][row + i] = rowSums[PairKernel.RowsAtOnce + i];
        }

        if (isDone)
        {
            _sums[0] += sums.First;
            _sums[1] += sums.Second;
            Widen(sums.LowestStack, sums.HighestStack);
        }

        return isDone;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private bool TryAddPair(ReadOnlySpan<PlaneBand> bands, int row)
    {
        ReadOnlySpan<ushort> first = bands[0].Row(row).Slice(_firstColumn, Columns);
        ReadOnlySpan<ushort> second = bands[1].Row(row).Slice(_firstColumn, Columns);
        if (!PairKernel.TryAdd(first, second, _columnSums[0], _columnSums[1], out PairSums sums))
        {
            return false;
        }

        Add(0, row, sums.First);
        Add(1, row, sums.Second);
        Widen(sums.LowestStack, sums.HighestStack);
        return true;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void AddFrames(ReadOnlySpan<PlaneBand> bands, int row)
    {
        Span<double> earlier = _earlier.AsSpan(0, Columns);
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
        _rowSums[frame][row] = segment.Sum;
        _sums[frame] += segment;
    }

    private void Widen(double low, double high) =>
        StackExtremes = (Math.Min(StackExtremes.Lowest, low), Math.Max(StackExtremes.Highest, high));

    private void TakeOutMeans<T>(T[][] sums, int length, double divisor)
        where T : INumber<T>
    {
        Span<double> earlier = _earlierProfile.AsSpan(0, length);
        earlier.Clear();
        for (int frame = 0; frame < _frames; frame++)
        {
            (double squares, double products) = _centred[frame];
            for (int i = 0; i < length; i++)
            {
                double own = double.CreateTruncating(sums[frame][i]);
                squares -= own * own / divisor;
                products -= own * earlier[i] / divisor;
                earlier[i] += own;
            }

            _centred[frame] = (squares, products);
        }
    }
}
