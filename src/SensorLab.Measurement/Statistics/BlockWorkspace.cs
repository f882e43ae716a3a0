namespace SensorLab.Measurement.Statistics;

/// <summary>The moments of all frames in one block, before they join those of the region.</summary>
internal sealed class BlockWorkspace
{
    private readonly int _frames;
    private readonly double[] _earlier;
    private readonly double[][] _rowSums;
    private readonly double[][] _columnSums;
    private readonly SegmentSums[] _sums;

    public BlockWorkspace(int frames, int tallest, int widest)
    {
        _frames = frames;
        _earlier = new double[widest];
        _rowSums = Enumerable.Range(0, frames).Select(_ => new double[tallest]).ToArray();
        _columnSums = Enumerable.Range(0, frames).Select(_ => new double[widest]).ToArray();
        _sums = new SegmentSums[frames];
    }

    public int Rows { get; private set; }

    public int Columns { get; private set; }

    /// <summary>Lowest and highest sum of all frames at one site.</summary>
    public (double Lowest, double Highest) StackExtremes { get; private set; }

    public SegmentSums SumsOf(int frame) => _sums[frame];

    public ReadOnlySpan<double> RowSumsOf(int frame) => _rowSums[frame].AsSpan(0, Rows);

    public ReadOnlySpan<double> ColumnSumsOf(int frame) => _columnSums[frame].AsSpan(0, Columns);

    public void Measure(IReadOnlyList<PlaneBand> bands, int firstColumn, int columns)
    {
        Rows = bands[0].Rows;
        Columns = columns;
        Array.Clear(_sums);
        foreach (double[] columnSums in _columnSums)
        {
            Array.Clear(columnSums);
        }

        double lowest = double.PositiveInfinity;
        double highest = double.NegativeInfinity;
        Span<double> earlier = _earlier.AsSpan(0, columns);
        for (int row = 0; row < Rows; row++)
        {
            earlier.Clear();
            for (int frame = 0; frame < _frames; frame++)
            {
                SegmentSums segment = SegmentKernel.Add(bands[frame].Row(row).Slice(firstColumn, columns), earlier, _columnSums[frame]);
                _rowSums[frame][row] = segment.Sum;
                _sums[frame] += segment;
            }

            (double low, double high) = Extremes.Of(earlier);
            lowest = Math.Min(lowest, low);
            highest = Math.Max(highest, high);
        }

        StackExtremes = (lowest, highest);
    }

    /// <summary>A frame's sum of squares and its products with the earlier frames, row and column means taken out.</summary>
    public (double Squares, double Products) CentredOf(int frame)
    {
        double squares = _sums[frame].Squares;
        double products = _sums[frame].Products;
        double total = 0;
        double earlierTotal = 0;
        for (int row = 0; row < Rows; row++)
        {
            double sum = _rowSums[frame][row];
            double earlier = SumBefore(_rowSums, frame, row);
            squares -= sum * sum / Columns;
            products -= sum * earlier / Columns;
            total += sum;
            earlierTotal += earlier;
        }

        for (int column = 0; column < Columns; column++)
        {
            double sum = _columnSums[frame][column];
            squares -= sum * sum / Rows;
            products -= sum * SumBefore(_columnSums, frame, column) / Rows;
        }

        double sites = (double)Rows * Columns;
        return (squares + (total * total / sites), products + (total * earlierTotal / sites));
    }

    private static double SumBefore(double[][] sums, int frame, int at)
    {
        double sum = 0;
        for (int i = 0; i < frame; i++)
        {
            sum += sums[i][at];
        }

        return sum;
    }
}
