using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Statistics;

/// <summary>What is kept of one channel of a level: enough for every later question, without the pixels.</summary>
public sealed class ChannelStatistics
{
    private readonly BlockGrid _grid;

    internal ChannelStatistics(
        SensorChannel channel,
        BlockGrid grid,
        IReadOnlyList<FrameMoments> frames,
        CodeHistogram codes,
        (int Count, IReadOnlyList<int> Sites) defects,
        (double MeanDn, long Pixels, int Rows) spot,
        (NeighbourSums Temporal, NeighbourSums Stack) neighbours)
    {
        Channel = channel;
        _grid = grid;
        Frames = frames;
        Codes = codes;
        DefectivePixels = defects.Count;
        DefectSites = defects.Sites;
        SpotMeanDn = spot.MeanDn;
        SpotPixels = spot.Pixels;
        SpotRows = spot.Rows;
        TemporalNeighbours = neighbours.Temporal;
        StackNeighbours = neighbours.Stack;
    }

    /// <summary>The channel.</summary>
    public SensorChannel Channel { get; }

    /// <summary>Sites a row of the region.</summary>
    public int Columns => _grid.Width;

    /// <summary>Sites a column of the region.</summary>
    public int Rows => _grid.Height;

    /// <summary>Sites of the region.</summary>
    public long Pixels => (long)Rows * Columns;

    /// <summary>The blocks of the region.</summary>
    public int Blocks => _grid.Count;

    /// <summary>The moments of each frame, in the order in which they were taken.</summary>
    public IReadOnlyList<FrameMoments> Frames { get; }

    /// <summary>Counts of codes, over all pixels or an even sample of rows.</summary>
    public CodeHistogram Codes { get; }

    /// <summary>Defective pixels that a neighbour replaced.</summary>
    public int DefectivePixels { get; }

    /// <summary>Where those of a dark level lie: row × <see cref="Columns"/> + column; empty for a lit one.</summary>
    public IReadOnlyList<int> DefectSites { get; }

    /// <summary>Mean of all frames where the spot meter looks, in DN.</summary>
    public double SpotMeanDn { get; }

    /// <summary>Sites that <see cref="SpotMeanDn"/> rests on.</summary>
    public long SpotPixels { get; }

    /// <summary>Rows of the channel that the spot meter sees.</summary>
    public int SpotRows { get; }

    /// <summary>Neighbours in the difference of the first two frames, over a sample of blocks.</summary>
    public NeighbourSums TemporalNeighbours { get; }

    /// <summary>Neighbours in the sum of all frames, over the same sample.</summary>
    public NeighbourSums StackNeighbours { get; }

    /// <summary>Degrees of freedom of a block's squares and products.</summary>
    /// <param name="block">Index of the block, row by row.</param>
    public long DegreesOfFreedomOf(int block) => _grid.DegreesOfFreedomOf(block);

    /// <summary>Sites of a block.</summary>
    /// <param name="block">Index of the block, row by row.</param>
    public int PixelsOf(int block) => _grid.RowsOf(block / _grid.BlockColumns) * _grid.ColumnsOf(block % _grid.BlockColumns);
}
