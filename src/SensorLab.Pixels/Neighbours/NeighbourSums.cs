using System.Runtime.Intrinsics;
using SensorLab.Law;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Neighbours;

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
    private NeighbourProducts _sides;
    private NeighbourProducts _around;
    private NeighbourProducts _touching;
    private NeighbourProducts _apart;
    private NeighbourProducts _repeatAlong;
    private NeighbourProducts _repeatAcross;
    private NeighbourProducts _slantedRight;
    private NeighbourProducts _slantedLeft;

    /// <summary>Begins without blocks.</summary>
    public NeighbourSums()
    {
    }

    private NeighbourSums(BinaryReader from)
    {
        (_squares, _pixels, _independent, Pairs) = (from.ReadDouble(), from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
        (_horizontal, _vertical, _diagonal) = (from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
        (_sides, _around, _touching) = (NeighbourProducts.Read(from), NeighbourProducts.Read(from), NeighbourProducts.Read(from));
        (_apart, _repeatAlong, _repeatAcross) = (NeighbourProducts.Read(from), NeighbourProducts.Read(from), NeighbourProducts.Read(from));
        (_slantedRight, _slantedLeft) = (NeighbourProducts.Read(from), NeighbourProducts.Read(from));
    }

    /// <summary>Pairs of neighbours in one direction.</summary>
    public double Pairs { get; private set; }

    /// <summary>Variance of a value in DN²; 0 before any block was added.</summary>
    public double VarianceDn2 => _pixels > 0 ? _squares / _pixels : 0;

    /// <summary>Covariance of neighbours in a row in DN².</summary>
    public double HorizontalDn2 => Pairs > 0 ? _horizontal / Pairs : 0;

    /// <summary>Covariance of neighbours in a column in DN².</summary>
    public double VerticalDn2 => Pairs > 0 ? _vertical / Pairs : 0;

    /// <summary>
    /// Covariances in DN² of sites farther apart, in two directions: of several planes of neighbours in a row and in a column of one,
    /// a whole repeat apart; of one plane two rows and two columns apart, to the right and to the left, where no line that was
    /// filled from the neighbour after next has a part. Null before any block was added.
    /// </summary>
    internal (double FirstDn2, double SecondDn2)? FartherDn2 => (_repeatAlong.Pairs > 0, _slantedRight.Pairs > 0) switch
    {
        (true, _) => (_repeatAlong.Sum / _repeatAlong.Pairs, _repeatAcross.Sum / _repeatAcross.Pairs),
        (_, true) => (_slantedRight.Sum / _slantedRight.Pairs, _slantedLeft.Sum / _slantedLeft.Pairs),
        _ => null,
    };

    /// <summary>What white noise would leave at 0: the correlations of each site with those next to it; null before any block that varies was added.</summary>
    internal NoiseNeighbours? Neighbours => VarianceDn2 > 0
        ? new NoiseNeighbours(
            CorrelationOf(_sides) ?? Correlation(_horizontal + _vertical, 2 * Pairs),
            CorrelationOf(_around) ?? Correlation(_horizontal + _vertical + (2 * _diagonal), 4 * Pairs))
        {
            Along = Correlation(_horizontal, Pairs),
            Across = Correlation(_vertical, Pairs),
            Touching = CorrelationOf(_touching),
            Apart = CorrelationOf(_apart),
            RepeatAlong = CorrelationOf(_repeatAlong),
            RepeatAcross = CorrelationOf(_repeatAcross),
        }
        : null;

    /// <summary>Adds the blocks of a channel's planes at one place of the region, whose sites are each other's neighbours.</summary>
    /// <param name="blocks">One block a plane, of one size.</param>
    /// <param name="neighbours">Which sites are neighbours.</param>
    internal void Add(ReadOnlySpan<BlockResiduals> blocks, ChannelNeighbours neighbours)
    {
        for (int plane = 0; plane < blocks.Length; plane++)
        {
            BlockResiduals block = blocks[plane];
            AddVariance(block, block.Independent);
            _repeatAlong += ProductsOf(block, block, new NeighbourLink(plane, plane, 0, 1));
            _repeatAcross += ProductsOf(block, block, new NeighbourLink(plane, plane, 1, 0));
        }

        (NeighbourProducts along, NeighbourProducts across) = (default, default);
        foreach (NeighbourPair pair in neighbours.Pairs)
        {
            NeighbourProducts own = ProductsOf(blocks[pair.Link.From], blocks[pair.Link.To], pair.Link);
            along += pair.IsAlong ? own : default;
            across += pair.IsAcross ? own : default;
            _sides += pair.IsSide ? own : default;
            _around += pair.IsAround ? own : default;
            _touching += pair.IsTouching ? own : default;
            _apart += pair.IsTouching ? default : own;
        }

        // As of a block alone: pairs of one direction, then both directions weigh the blocks by their pairs.
        double pairs = Math.Sqrt(along.Pairs * across.Pairs);
        _horizontal += pairs * along.Sum / along.Pairs;
        _vertical += pairs * across.Sum / across.Pairs;
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
        double pairs = Math.Sqrt((double)rows * (columns - 1) * (rows - 1) * columns);
        _horizontal += pairs * ((horizontal / (rows * (columns - 1.0))) + (block.MeanSquare / (columns - 1)));
        _vertical += pairs * ((vertical / ((rows - 1.0) * columns)) + (block.MeanSquare / (rows - 1)));
        _diagonal += pairs * ((diagonal / (2 * (rows - 1.0) * (columns - 1.0))) - (block.MeanSquare / block.Independent));
        _slantedRight += ProductsOf(block, block, new NeighbourLink(0, 0, 2, 2));
        _slantedLeft += ProductsOf(block, block, new NeighbourLink(0, 0, 2, -2));
        AddVariance(block, (double)rows * columns);
        Pairs += pairs;
    }

    /// <summary>Writes the sums as bytes.</summary>
    internal void Write(BinaryWriter to)
    {
        foreach (double sum in (double[])[_squares, _pixels, _independent, Pairs, _horizontal, _vertical, _diagonal])
        {
            to.Write(sum);
        }

        foreach (NeighbourProducts products in (NeighbourProducts[])[_sides, _around, _touching, _apart, _repeatAlong, _repeatAcross, _slantedRight, _slantedLeft])
        {
            products.Write(to);
        }
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    internal static NeighbourSums Read(BinaryReader from) => new(from);

    private void AddVariance(BlockResiduals block, double independent)
    {
        _squares += block.WhiteVariance * block.Rows * block.Columns;
        _pixels += (double)block.Rows * block.Columns;
        _independent += independent;
    }

    private Estimate? CorrelationOf(NeighbourProducts products) => products.Pairs > 0 ? Correlation(products.Sum, products.Pairs) : null;

    private Estimate Correlation(double sum, double pairs) => new(sum / (pairs * VarianceDn2), Math.Sqrt(_pixels / (_independent * pairs)));

    /// <summary>The products of two planes' neighbours.</summary>
    private static NeighbourProducts ProductsOf(BlockResiduals from, BlockResiduals to, NeighbourLink link)
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
        double lost = link.From != link.To ? sum * ((1 / from.Kept) - 1)
            : link.Down == 0 ? count * from.MeanSquare / (from.Columns - 1)
            : link.Right == 0 ? count * from.MeanSquare / (from.Rows - 1)
            : -count * from.MeanSquare / from.Independent;
        return new NeighbourProducts(sum + lost, count);
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

/// <summary>Two sites of a channel that are neighbours in some way.</summary>
/// <param name="Link">Where they lie.</param>
/// <param name="IsSide">One is among the other's four nearest.</param>
/// <param name="IsAround">One is among the other's eight nearest.</param>
/// <param name="IsAlong">One is the other's next in the row.</param>
/// <param name="IsAcross">One is the other's next in the column.</param>
/// <param name="IsTouching">They touch, by a side or a corner: on sensors that put a filter over several photosites.</param>
internal readonly record struct NeighbourPair(NeighbourLink Link, bool IsSide, bool IsAround, bool IsAlong, bool IsAcross, bool IsTouching);

/// <summary>Two sites of a channel that are neighbours, in every repeat.</summary>
/// <param name="From">The one's plane.</param>
/// <param name="To">The other's plane.</param>
/// <param name="Down">Repeats from the one down to the other.</param>
/// <param name="Right">Repeats from the one to the right.</param>
internal readonly record struct NeighbourLink(int From, int To, int Down, int Right);

/// <summary>Products of the values of pairs of sites.</summary>
/// <param name="Sum">Their sum in DN².</param>
/// <param name="Pairs">How many they are.</param>
internal readonly record struct NeighbourProducts(double Sum, double Pairs)
{
    public static NeighbourProducts operator +(NeighbourProducts a, NeighbourProducts b) => new(a.Sum + b.Sum, a.Pairs + b.Pairs);

    /// <summary>Writes them as bytes.</summary>
    public void Write(BinaryWriter to)
    {
        to.Write(Sum);
        to.Write(Pairs);
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static NeighbourProducts Read(BinaryReader from) => new(from.ReadDouble(), from.ReadDouble());
}
