namespace SensorLab.Pixels.Planes;

/// <summary>The moments of every frame of a level at one place of the colour filter array, until a channel's statistics are drawn from them.</summary>
/// <param name="grid">The blocks.</param>
/// <param name="frames">The moments of each frame, in the order in which they were taken.</param>
/// <param name="place">Where the sites lie.</param>
/// <param name="lostDegrees">Degrees of freedom that each block lost to values that stand twice.</param>
internal sealed class PlaneMoments(BlockGrid grid, IReadOnlyList<FrameMoments> frames, PlanePlace place, IReadOnlyList<double> lostDegrees)
{
    /// <summary>Block means that are kept: the course of the light over the region is smooth.</summary>
    private const int MostBlockMeans = 64;

    /// <summary>Where its sites lie.</summary>
    public PlanePlace Place => place;

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

    /// <summary>Whether a line's sums are kept by halves: a line of one block has none.</summary>
    /// <param name="isRow">Whether the line is a row.</param>
    public bool HasHalves(bool isRow) => (isRow ? grid.BlockColumns : grid.BlockRows) > 1;

    /// <summary>Degrees of freedom of all blocks' squares together.</summary>
    public double DegreesOfFreedom => Enumerable.Range(0, Blocks).Sum(DegreesOfFreedomOf);

    /// <summary>Degrees of freedom of a block's squares and products; 1 at the least, which a block of one sound pixel a row has not.</summary>
    /// <param name="block">Index of the block, row by row.</param>
    public double DegreesOfFreedomOf(int block) => Math.Max(1, grid.DegreesOfFreedomOf(block) - lostDegrees[block]);

    /// <summary>Mean of a frame in DN.</summary>
    public double MeanDnOf(int frame) => frames[frame].Sum / Pixels;

    /// <summary>How the blocks of a channel differ, each over all planes.</summary>
    /// <param name="planes">The channel's planes, of one size.</param>
    public static BlockSpread Spread(IReadOnlyList<PlaneMoments> planes)
    {
        double[] means = new double[planes[0].Blocks];
        foreach (PlaneMoments plane in planes)
        {
            foreach (FrameMoments frame in plane.Frames)
            {
                for (int block = 0; block < means.Length; block++)
                {
                    means[block] += frame.BlockSums[block] / plane.Frames.Count / plane.PixelsOf(block) / planes.Count;
                }
            }
        }

        Array.Sort(means);
        int kept = Math.Min(means.Length, MostBlockMeans);
        double[] chosen = [.. Enumerable.Range(0, kept).Select(i => means[i * (means.Length - 1) / Math.Max(1, kept - 1)])];
        return new BlockSpread(chosen, planes.Sum(p => p.Frames[0].BlockSquares.Sum()) / planes.Sum(p => p.DegreesOfFreedom), planes.Count * planes[0].PixelsOf(0));
    }

    private int PixelsOf(int block) => grid.RowsOf(block / grid.BlockColumns) * grid.ColumnsOf(block % grid.BlockColumns);
}
