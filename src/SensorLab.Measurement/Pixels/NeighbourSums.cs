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
            new Estimate((_horizontal + _vertical) / (2 * Pairs * VarianceDn2), 1 / Math.Sqrt(2 * Pairs)),
            new Estimate((_horizontal + _vertical + (2 * _diagonal)) / (4 * Pairs * VarianceDn2), 1 / Math.Sqrt(4 * Pairs)))
        {
            Along = new Estimate(_horizontal / (Pairs * VarianceDn2), 1 / Math.Sqrt(Pairs)),
            Across = new Estimate(_vertical / (Pairs * VarianceDn2), 1 / Math.Sqrt(Pairs)),
        }
        : null;

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
}
