using System.Runtime.InteropServices;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Neighbours;

/// <summary>Measures how neighbouring pixels of a plane go together, in an even sample of blocks.</summary>
/// <remarks>
/// The difference of the first two frames has the temporal noise, the sum of all frames the fixed pattern as well.
/// </remarks>
internal sealed class NeighbourMeter
{
    /// <summary>Pixels of a level that are looked at, of all channels together: over an ISO's levels a correlation of 0.1 % stands out.</summary>
    private const double EnoughPixels = 262_144;

    /// <summary>Codes up to which two frames differ by rounding and little noise.</summary>
    private const double SmallestStrayDn = 4;

    private readonly int _stride;
    private readonly int _largestBlock;
    private readonly List<BlockResiduals> _stack = [];
    private readonly List<BlockResiduals> _noise = [];
    private readonly bool _dark;
    private int _blocks;

    public NeighbourMeter(BlockGrid grid, int planes, bool dark)
    {
        // An odd stride does not walk down one column of blocks.
        _stride = (int)Math.Ceiling(planes * (double)grid.Width * grid.Height / EnoughPixels) | 1;
        _largestBlock = grid.TallestBlock * grid.WidestBlock;
        _dark = dark;
    }

    /// <summary>Of the scaled difference of the first two frames.</summary>
    public NeighbourSums Temporal { get; } = new();

    /// <summary>Of the sum of all frames.</summary>
    public NeighbourSums Stack { get; } = new();

    /// <summary>The scaled difference of the first two frames in each block sampled of the last row of blocks.</summary>
    public ReadOnlySpan<BlockResiduals> Noise => CollectionsMarshal.AsSpan(_noise)[.._blocks];

    /// <summary>The sum of all frames in each of these blocks.</summary>
    public ReadOnlySpan<BlockResiduals> StackNoise => CollectionsMarshal.AsSpan(_stack)[.._blocks];

    public bool Samples(int block) => block % _stride == 0;

    /// <summary>Starts a row of blocks.</summary>
    public void BeginBlockRow() => _blocks = 0;

    /// <summary>Adds a block's temporal noise, its defects not replaced: copies of neighbours would look like correlation. What no noise makes is left out.</summary>
    public void AddTemporal(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        if (_blocks == _noise.Count)
        {
            _noise.Add(new BlockResiduals(_largestBlock));
            _stack.Add(new BlockResiduals(_largestBlock));
        }

        BlockResiduals residuals = _noise[_blocks++];
        residuals.Begin(block.Rows, block.Columns);
        double scale = _dark || block.SumsOf(0).Sum <= 0 ? 1 : block.SumsOf(1).Sum / block.SumsOf(0).Sum;
        for (int row = 0; row < block.Rows; row++)
        {
            ReadOnlySpan<ushort> first = bands[0].Row(row).Slice(firstColumn, block.Columns);
            ReadOnlySpan<ushort> second = bands[1].Row(row).Slice(firstColumn, block.Columns);
            Span<double> values = residuals.Row(row);
            for (int column = 0; column < values.Length; column++)
            {
                values[column] = second[column] - (scale * first[column]);
            }
        }

        residuals.CentreSound(SmallestStrayDn);
        Temporal.Add(residuals);
    }

    /// <summary>Adds a block's sum of all frames, its defects replaced.</summary>
    public void AddStack(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        BlockResiduals stack = _stack[_blocks - 1];
        stack.Begin(block.Rows, block.Columns);
        for (int row = 0; row < block.Rows; row++)
        {
            Span<double> values = stack.Row(row);
            foreach (PlaneBand band in bands)
            {
                ReadOnlySpan<ushort> own = band.Row(row).Slice(firstColumn, block.Columns);
                for (int column = 0; column < values.Length; column++)
                {
                    values[column] += own[column];
                }
            }
        }

        stack.Centre();
        Stack.Add(stack);
    }
}
