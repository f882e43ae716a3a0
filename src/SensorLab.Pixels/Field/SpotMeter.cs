using System.Buffers;
using SensorLab.Frames;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Field;

/// <summary>Mean of each channel where the camera's spot meter looks, over all frames of a level; defective pixels left out.</summary>
internal sealed class SpotMeter : IDisposable
{
    /// <summary>Codes a frame that a pixel may always be off its channel's median.</summary>
    private const double SmallestCodes = 2.5;

    private readonly PixelRectangle _spot;
    private readonly ColourFilterArray _array;

    /// <summary>The sum of all frames at each site of a place of the repeat, row by row: what all frames share tells a defect from noise.</summary>
    private readonly int[][] _stacks;
    private readonly int _sites;
    private long _rowsAdded;

    public SpotMeter(PixelRectangle spot, ColourFilterArray array)
    {
        _spot = spot;
        _array = array;
        _sites = spot.Height / array.Rows * (spot.Width / array.Columns);
        _stacks = [.. Enumerable.Range(0, array.Rows * array.Columns).Select(_ => ArrayPool<int>.Shared.Rent(_sites))];
        foreach (int[] stack in _stacks)
        {
            Array.Clear(stack, 0, _sites);
        }
    }

    /// <summary>What the window holds of a channel, and its mean over all frames.</summary>
    public SpotView Of(SensorChannel channel)
    {
        IReadOnlyList<(int Row, int Column)> sites = _array.SitesOf(channel);
        (int rows, int columns) = (_spot.Height / _array.Rows, _spot.Width / _array.Columns);
        return new SpotView(
            MeanDnOf(sites),
            (long)sites.Count * rows * columns,
            rows * sites.Select(s => s.Row).Distinct().Count(),
            columns * sites.Select(s => s.Column).Distinct().Count());
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (int[] stack in _stacks)
        {
            ArrayPool<int>.Shared.Return(stack);
        }
    }

    /// <summary>Adds a row of the active area.</summary>
    public void AddRow(int row, ReadOnlySpan<ushort> activeRow)
    {
        if (row < _spot.Y || row >= _spot.Bottom)
        {
            return;
        }

        int columns = _spot.Width / _array.Columns;
        for (int phase = 0; phase < _array.Columns; phase++)
        {
            Span<int> stack = _stacks[((row - _spot.Y) % _array.Rows * _array.Columns) + phase].AsSpan((row - _spot.Y) / _array.Rows * columns, columns);
            for (int i = 0; i < stack.Length; i++)
            {
                stack[i] += activeRow[_spot.X + phase + (i * _array.Columns)];
            }
        }

        _rowsAdded++;
    }

    private double MeanDnOf(IReadOnlyList<(int Row, int Column)> sites)
    {
        double frames = (double)_rowsAdded / _spot.Height;
        return sites.Average(site => RobustMean.Of(_stacks[(site.Row * _array.Columns) + site.Column].AsSpan(0, _sites), SmallestCodes * frames) / frames);
    }
}

/// <summary>What the spot meter's window holds of a channel.</summary>
/// <param name="MeanDn">Mean over all frames of a level in DN, defective pixels left out.</param>
/// <param name="Pixels">Sites of the channel.</param>
/// <param name="Rows">Rows that hold them.</param>
/// <param name="Columns">Columns that hold them.</param>
internal readonly record struct SpotView(double MeanDn, long Pixels, int Rows, int Columns);
