using System.Runtime.Intrinsics;
using SensorLab.Law;

namespace SensorLab.Measurement.Pixels;

/// <summary>Products of neighbouring values over some blocks, row and column means of each block taken out.</summary>
/// <remarks>
/// Taking out means leaves white noise with a covariance of −variance/(columns − 1) between the neighbours of a row and
/// −variance/(rows − 1) between those of a column, and variance/((rows − 1)(columns − 1)) across a corner; it is given
/// back here, so that white noise has none. Products across two planes, each with its means taken out, are fewer
/// independent ones than pairs: as many as values less means.
/// </remarks>
public sealed class NeighbourSums
{
    private double _squares;
    private double _pixels;
    private double _independent;
    private double _horizontal;
    private double _vertical;
    private double _diagonal;
    private double _sides;
    private double _sidePairs;
    private double _around;
    private double _aroundPairs;
    private double _touching;
    private double _touchingPairs;
    private double _apart;
    private double _apartPairs;
    private double _repeatAlong;
    private double _repeatAcross;
    private double _repeatPairs;

    /// <summary>Begins without blocks.</summary>
    public NeighbourSums()
    {
    }

    private NeighbourSums(BinaryReader from)
    {
        (_squares, _pixels, _independent, Pairs) = (from.ReadDouble(), from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
        (_horizontal, _vertical, _diagonal) = (from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
        (_sides, _sidePairs, _around, _aroundPairs) = (from.ReadDouble(), from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
        (_touching, _touchingPairs, _apart, _apartPairs) = (from.ReadDouble(), from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
        (_repeatAlong, _repeatAcross, _repeatPairs) = (from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
    }

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
            Touching = _touchingPairs > 0 ? Correlation(_touching, _touchingPairs) : null,
            Apart = _apartPairs > 0 ? Correlation(_apart, _apartPairs) : null,
            RepeatAlong = _repeatPairs > 0 ? Correlation(_repeatAlong, _repeatPairs) : null,
            RepeatAcross = _repeatPairs > 0 ? Correlation(_repeatAcross, _repeatPairs) : null,
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
            _independent += (rows - 1.0) * (columns - 1.0);
        }

        (double along, double alongs, double across, double acrosses) = (0, 0, 0, 0);
        foreach (NeighbourPair pair in neighbours.Pairs)
        {
            (double sum, double count) = SumOf(blocks[pair.Link.From], blocks[pair.Link.To], pair.Link);
            (along, alongs) = pair.IsAlong ? (along + sum, alongs + count) : (along, alongs);
            (across, acrosses) = pair.IsAcross ? (across + sum, acrosses + count) : (across, acrosses);
            (_sides, _sidePairs) = pair.IsSide ? (_sides + sum, _sidePairs + count) : (_sides, _sidePairs);
            (_touching, _touchingPairs) = pair.IsTouching ? (_touching + sum, _touchingPairs + count) : (_touching, _touchingPairs);
            (_apart, _apartPairs) = pair.IsTouching ? (_apart, _apartPairs) : (_apart + sum, _apartPairs + count);
            (_around, _aroundPairs) = pair.IsAround ? (_around + sum, _aroundPairs + count) : (_around, _aroundPairs);
        }

        for (int plane = 0; plane < blocks.Length; plane++)
        {
            // As of a block alone, too.
            (double beside, double besides) = SumOf(blocks[plane], blocks[plane], new NeighbourLink(plane, plane, 0, 1));
            (double below, double belows) = SumOf(blocks[plane], blocks[plane], new NeighbourLink(plane, plane, 1, 0));
            double repeats = Math.Sqrt(besides * belows);
            (_repeatAlong, _repeatAcross, _repeatPairs) = (_repeatAlong + (repeats * beside / besides), _repeatAcross + (repeats * below / belows), _repeatPairs + repeats);
        }

        // As of a block alone: pairs of one direction, then both directions weigh the blocks by their pairs.
        double pairs = Math.Sqrt(alongs * acrosses);
        _horizontal += pairs * along / alongs;
        _vertical += pairs * across / acrosses;
        Pairs += pairs;
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
        _independent += (double)rows * columns;
        Pairs += pairs;
    }

    /// <summary>Writes the sums as bytes.</summary>
    internal void Write(BinaryWriter to)
    {
        foreach (double sum in (double[])[_squares, _pixels, _independent, Pairs, _horizontal, _vertical, _diagonal, _sides, _sidePairs, _around, _aroundPairs, _touching, _touchingPairs, _apart, _apartPairs, _repeatAlong, _repeatAcross, _repeatPairs])
        {
            to.Write(sum);
        }
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    internal static NeighbourSums Read(BinaryReader from) => new(from);

    private Estimate Correlation(double sum, double pairs) => new(sum / (pairs * VarianceDn2), Math.Sqrt(_pixels / (_independent * pairs)));

    /// <summary>Sum of the products of two planes' neighbours, and how many pairs they are.</summary>
    private static (double Sum, double Pairs) SumOf(BlockResiduals from, BlockResiduals to, NeighbourLink link)
    {
        int rows = Math.Max(0, from.Rows - Math.Abs(link.Down));
        int columns = Math.Max(0, from.Columns - Math.Abs(link.Right));
        double sum = 0;
        for (int row = 0; row < rows; row++)
        {
            sum += Product(from.Row(row + Math.Max(0, -link.Down)).Slice(Math.Max(0, -link.Right), columns), to.Row(row + Math.Max(0, link.Down)).Slice(Math.Max(0, link.Right), columns));
        }

        // The means that were taken out of two planes take from what they share as much as from a variance; of one plane
        // they leave white noise with a covariance, below 0 along its lines.
        double count = (double)rows * columns;
        double kept = (from.Rows - 1.0) * (from.Columns - 1) / ((double)from.Rows * from.Columns);
        double lost = link.From != link.To ? sum * ((1 / kept) - 1)
            : link.Down == 0 ? count * from.MeanSquare / (from.Columns - 1)
            : link.Right == 0 ? count * from.MeanSquare / (from.Rows - 1)
            : -count * from.MeanSquare / ((from.Rows - 1.0) * (from.Columns - 1));
        return (sum + lost, count);
    }

    private static double Product(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        Vector256<double> sums = default;
        int i = 0;
        for (; i <= a.Length - Vector256<double>.Count; i += Vector256<double>.Count)
        {
            sums += Vector256.Create(a[i..]) * Vector256.Create(b[i..]);
        }

        double sum = Vector256.Sum(sums);
        for (; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }
}
