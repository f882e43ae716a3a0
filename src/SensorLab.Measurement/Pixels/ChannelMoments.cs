namespace SensorLab.Measurement.Pixels;

/// <summary>The moments of every frame of a level in one channel, until the channel's statistics are drawn from them.</summary>
internal sealed class ChannelMoments(BlockGrid grid, IReadOnlyList<FrameMoments> frames)
{
    /// <summary>Block means that are kept: the course of the light over the region is smooth.</summary>
    private const int MostBlockMeans = 64;

    /// <summary>The moments of each frame, in the order in which they were taken.</summary>
    public IReadOnlyList<FrameMoments> Frames => frames;

    /// <summary>Sites a row of the region.</summary>
    public int Columns => grid.Width;

    /// <summary>Sites a column of the region.</summary>
    public int Rows => grid.Height;

    /// <summary>Sites of the region.</summary>
    public long Pixels => (long)Rows * Columns;

    /// <summary>The blocks of the region.</summary>
    public int Blocks => grid.Count;

    /// <summary>Degrees of freedom of all blocks' squares together.</summary>
    public double DegreesOfFreedom => Enumerable.Range(0, Blocks).Sum(b => (double)DegreesOfFreedomOf(b));

    /// <summary>Degrees of freedom of a block's squares and products.</summary>
    /// <param name="block">Index of the block, row by row.</param>
    public long DegreesOfFreedomOf(int block) => grid.DegreesOfFreedomOf(block);

    /// <summary>Mean of a frame in DN.</summary>
    public double MeanDnOf(int frame) => frames[frame].Sum / Pixels;

    /// <summary>How the blocks differ.</summary>
    public BlockSpread Spread()
    {
        double[] means = new double[Blocks];
        foreach (FrameMoments frame in frames)
        {
            for (int block = 0; block < means.Length; block++)
            {
                means[block] += frame.BlockSums[block] / frames.Count / PixelsOf(block);
            }
        }

        Array.Sort(means);
        int kept = Math.Min(means.Length, MostBlockMeans);
        double[] chosen = [.. Enumerable.Range(0, kept).Select(i => means[i * (means.Length - 1) / Math.Max(1, kept - 1)])];
        return new BlockSpread(chosen, frames[0].BlockSquares.Sum() / DegreesOfFreedom, PixelsOf(0));
    }

    private int PixelsOf(int block) => grid.RowsOf(block / grid.BlockColumns) * grid.ColumnsOf(block % grid.BlockColumns);
}
