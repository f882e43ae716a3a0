using System.Runtime.InteropServices;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Neighbours;

/// <summary>Measures how neighbouring pixels of a plane go together, in an even sample of blocks.</summary>
/// <remarks>
/// The difference of two frames has the temporal noise, the sum of all frames the fixed pattern as well. A large region
/// tells enough by its first two frames; a small one is asked of as many pairs as it takes.
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
    private readonly int _pairs;
    private int _differences;
    private int _sums;

    public NeighbourMeter(BlockGrid grid, int planes, int frames, bool dark)
    {
        // An odd stride does not walk down one column of blocks.
        double pixels = planes * (double)grid.Width * grid.Height;
        _stride = (int)Math.Ceiling(pixels / EnoughPixels) | 1;
        _pairs = Math.Min(frames / 2, (int)Math.Ceiling(EnoughPixels / pixels));
        _largestBlock = grid.TallestBlock * grid.WidestBlock;
        _dark = dark;
    }

    /// <summary>Of the scaled differences of two frames each.</summary>
    public NeighbourSums Temporal { get; } = new();

    /// <summary>Of the sum of all frames.</summary>
    public NeighbourSums Stack { get; } = new();

    /// <summary>The scaled differences of two frames each in each block sampled of the last row of blocks, a block's one after another.</summary>
    public ReadOnlySpan<BlockResiduals> Noise => CollectionsMarshal.AsSpan(_noise)[.._differences];

    /// <summary>The sum of all frames in each of these blocks.</summary>
    public ReadOnlySpan<BlockResiduals> StackNoise => CollectionsMarshal.AsSpan(_stack)[.._sums];

    public bool Samples(int block) => _pairs > 0 && block % _stride == 0;

    /// <summary>Starts a row of blocks.</summary>
    public void BeginBlockRow() => (_differences, _sums) = (0, 0);

    /// <summary>Adds a block's temporal noise, its defects not replaced: copies of neighbours would look like correlation. What no noise makes is left out.</summary>
    public void AddTemporal(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        for (int pair = 0; pair < _pairs; pair++)
        {
            (int first, int second) = (2 * pair, (2 * pair) + 1);
            BlockResiduals residuals = Next(_noise, ref _differences, block);
            double scale = _dark || block.SumsOf(first).Sum <= 0 ? 1 : block.SumsOf(second).Sum / block.SumsOf(first).Sum;
            for (int row = 0; row < block.Rows; row++)
            {
                ReadOnlySpan<ushort> one = bands[first].Row(row).Slice(firstColumn, block.Columns);
                ReadOnlySpan<ushort> other = bands[second].Row(row).Slice(firstColumn, block.Columns);
                Span<double> values = residuals.Row(row);
                for (int column = 0; column < values.Length; column++)
                {
                    values[column] = other[column] - (scale * one[column]);
                }
            }

            residuals.CentreSound(SmallestStrayDn);
            Temporal.Add(residuals);
        }
    }

    /// <summary>Adds a block's sum of all frames, its defects replaced.</summary>
    public void AddStack(ReadOnlySpan<PlaneBand> bands, int firstColumn, BlockWorkspace block)
    {
        BlockResiduals stack = Next(_stack, ref _sums, block);
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
    private BlockResiduals Next(List<BlockResiduals> kept, ref int count, BlockWorkspace block)
    {
        if (count == kept.Count)
        {
            kept.Add(new BlockResiduals(_largestBlock));
        }

        BlockResiduals next = kept[count++];
        next.Begin(block.Rows, block.Columns);
        return next;
    }
}
