using SensorLab.Law;

namespace SensorLab.Measurement.Pixels;

/// <summary>Products of neighbouring values over some blocks, row and column means of each block taken out.</summary>
/// <remarks>
/// Taking out means leaves white noise with a covariance of −variance/(columns − 1) between the neighbours of a row and
/// −variance/(rows − 1) between those of a column, and variance/((rows − 1)(columns − 1)) across a corner; it is given
/// back here, so that white noise has none.
/// </remarks>
public sealed class NeighbourSums
{
    private double _squares;
    private double _pixels;
    private double _horizontal;
    private double _vertical;
    private double _diagonal;
    private double _sides;
    private double _sidePairs;
    private double _around;
    private double _aroundPairs;

    /// <summary>Pairs of neighbours in one direction.</summary>
    public double Pairs { get; private set; }

    /// <summary>Variance of a value in DN²; 0 before any block was added.</summary>
    public double VarianceDn2 => _pixels > 0 ? _squares / _pixels : 0;

    /// <summary>Covariance of neighbours in a row in DN².</summary>
    public double HorizontalDn2 => Pairs > 0 ? _horizontal / Pairs : 0;

    /// <summary>Covariance of neighbours in a column in DN².</summary>
    public double VerticalDn2 => Pairs > 0 ? _vertical / Pairs : 0;

    /// <summary>What white noise would leave at 0: the correlations of each site with those next to it; null before any block that varies was added.</summary>
    internal NoiseNeighbours? Neighbours => VarianceDn2 > 0
        ? new NoiseNeighbours(
            _sidePairs > 0 ? Correlation(_sides, _sidePairs) : Correlation(_horizontal + _vertical, 2 * Pairs),
            _aroundPairs > 0 ? Correlation(_around, _aroundPairs) : Correlation(_horizontal + _vertical + (2 * _diagonal), 4 * Pairs))
        {
            Along = Correlation(_horizontal, Pairs),
            Across = Correlation(_vertical, Pairs),
        }
        : null;

    /// <summary>Adds the blocks of a channel's planes at one place of the region, whose sites are each other's neighbours.</summary>
    /// <param name="blocks">One block a plane, of one size.</param>
    /// <param name="neighbours">Which sites are neighbours.</param>
    internal void Add(ReadOnlySpan<BlockResiduals> blocks, ChannelNeighbours neighbours)
    {
        foreach (BlockResiduals block in blocks)
        {
            (int rows, int columns) = (block.Rows, block.Columns);
            _squares += block.MeanSquare * rows * columns / ((rows - 1.0) * (columns - 1.0)) * rows * columns;
            _pixels += (double)rows * columns;
        }

        (double along, double alongPairs) = SumOf(blocks, neighbours.Along);
        (double across, double acrossPairs) = SumOf(blocks, neighbours.Across);
        double pairs = Math.Sqrt(alongPairs * acrossPairs);
        _horizontal += pairs * along / alongPairs;
        _vertical += pairs * across / acrossPairs;
        Pairs += pairs;
        (double sides, double sidePairs) = SumOf(blocks, neighbours.Sides);
        (double around, double aroundPairs) = SumOf(blocks, neighbours.Around);
        (_sides, _sidePairs, _around, _aroundPairs) = (_sides + sides, _sidePairs + sidePairs, _around + around, _aroundPairs + aroundPairs);
    }

    /// <summary>Adds a block.</summary>
    /// <param name="block">The block, of 2 rows and 2 columns or more.</param>
    internal void Add(BlockResiduals block)
    {
        (int rows, int columns) = (block.Rows, block.Columns);
        double horizontal = 0;
        double vertical = 0;
        double diagonal = 0;
        for (int row = 0; row < rows; row++)
        {
            ReadOnlySpan<double> own = block.Row(row);
            ReadOnlySpan<double> above = row > 0 ? block.Row(row - 1) : default;
            for (int column = 1; column < columns; column++)
            {
                horizontal += own[column] * own[column - 1];
            }

            for (int column = 0; column < above.Length; column++)
            {
                vertical += own[column] * above[column];
            }

            for (int column = 1; column < above.Length; column++)
            {
                diagonal += (own[column] * above[column - 1]) + (own[column - 1] * above[column]);
            }
        }

        // Per pair of one direction, then both directions weigh the block by its pairs.
        double variance = block.MeanSquare * rows * columns / ((rows - 1.0) * (columns - 1.0));
        double pairs = Math.Sqrt((double)rows * (columns - 1) * (rows - 1) * columns);
        _horizontal += pairs * ((horizontal / (rows * (columns - 1.0))) + (block.MeanSquare / (columns - 1)));
        _vertical += pairs * ((vertical / ((rows - 1.0) * columns)) + (block.MeanSquare / (rows - 1)));
        _diagonal += pairs * ((diagonal / (2 * (rows - 1.0) * (columns - 1.0))) - (block.MeanSquare / ((rows - 1.0) * (columns - 1.0))));
        _squares += variance * rows * columns;
        _pixels += (double)rows * columns;
        Pairs += pairs;
    }

    private Estimate Correlation(double sum, double pairs) => new(sum / (pairs * VarianceDn2), 1 / Math.Sqrt(pairs));

    /// <summary>Sum of the products of some neighbours, and how many pairs they are: each pair once, whichever site names the other.</summary>
    private static (double Sum, double Pairs) SumOf(ReadOnlySpan<BlockResiduals> blocks, IReadOnlyList<NeighbourLink> links)
    {
        double sum = 0;
        double pairs = 0;
        foreach (NeighbourLink link in links)
        {
            (BlockResiduals from, BlockResiduals to) = (blocks[link.From], blocks[link.To]);
            int rows = from.Rows - Math.Abs(link.Down);
            int columns = from.Columns - Math.Abs(link.Right);
            for (int row = 0; row < rows; row++)
            {
                ReadOnlySpan<double> own = from.Row(row + Math.Max(0, -link.Down)).Slice(Math.Max(0, -link.Right), Math.Max(0, columns));
                ReadOnlySpan<double> other = to.Row(row + Math.Max(0, link.Down)).Slice(Math.Max(0, link.Right), own.Length);
                for (int column = 0; column < own.Length; column++)
                {
                    sum += own[column] * other[column];
                }
            }

            double count = Math.Max(0, rows) * (double)Math.Max(0, columns);
            pairs += count;

            // The means that were taken out of a plane leave its own white noise with a negative covariance.
            sum += link.From != link.To ? 0
                : link.Down == 0 ? count * from.MeanSquare / (from.Columns - 1)
                : link.Right == 0 ? count * from.MeanSquare / (from.Rows - 1)
                : -count * from.MeanSquare / ((from.Rows - 1.0) * (from.Columns - 1));
        }

        return (sum, pairs);
    }
}
