namespace SensorLab.Pixels.Planes;

/// <summary>What one frame of a level leaves of one channel while the level is measured.</summary>
/// <remarks>
/// "Earlier" is the sum of the frames before this one at each site. From these moments the difference of the frame and
/// the scaled sum of the earlier ones has its variance for any scale, so that frames need not be scaled before their
/// light is known.
/// </remarks>
internal sealed class FrameMoments
{
    public FrameMoments(int rows, int columns, int blocks)
    {
        RowSums = new double[rows];
        ColumnSums = new double[columns];
        LeftRowSums = new double[rows];
        UpperColumnSums = new double[columns];
        BlockSums = new double[blocks];
        BlockSquares = new double[blocks];
        BlockProducts = new double[blocks];
    }

    /// <summary>Sum of all values in DN.</summary>
    public double Sum { get; set; }

    /// <summary>Sum along each row in DN.</summary>
    public double[] RowSums { get; }

    /// <summary>Sum down each column in DN.</summary>
    public double[] ColumnSums { get; }

    /// <summary>Sum along each row in the left half of the blocks, in DN.</summary>
    public double[] LeftRowSums { get; }

    /// <summary>Sum down each column in the upper half of the blocks, in DN.</summary>
    public double[] UpperColumnSums { get; }

    /// <summary>Sum in each block in DN.</summary>
    public double[] BlockSums { get; }

    /// <summary>Sum of squares in each block in DN², row and column means of the block taken out.</summary>
    public double[] BlockSquares { get; }

    /// <summary>Sum of products with the earlier frames' sum in each block in DN², row and column means of the block taken out.</summary>
    public double[] BlockProducts { get; }
}
