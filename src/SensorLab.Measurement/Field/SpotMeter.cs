using SensorLab.Frames;
using SensorLab.Measurement.Pixels;

namespace SensorLab.Measurement.Field;

/// <summary>Mean of each channel where the camera's spot meter looks, over all frames of a level; defective pixels left out.</summary>
internal sealed class SpotMeter
{
    /// <summary>Codes a frame that a pixel may always be off its channel's median.</summary>
    private const double SmallestCodes = 2.5;

    private readonly PixelRectangle _spot;
    private readonly ColourFilterArray _array;

    /// <summary>The sum of all frames at each site of a channel, row by row: what all frames share tells a defect from noise.</summary>
    private readonly Dictionary<SensorChannel, int[]> _stacks = [];
    private long _rowsAdded;

    public SpotMeter(PixelRectangle spot, ColourFilterArray array)
    {
        _spot = spot;
        _array = array;
        foreach (SensorChannel channel in array.Channels)
        {
            _stacks[channel] = new int[PixelsPerChannel];
        }
    }

    /// <summary>Sites of one channel in the window.</summary>
    public long PixelsPerChannel => _spot.Area / (_array.Period * _array.Period);

    /// <summary>Rows of one channel in the window.</summary>
    public int RowsPerChannel => _spot.Height / _array.Period;

    /// <summary>Adds a row of the active area.</summary>
    public void AddRow(int row, ReadOnlySpan<ushort> activeRow)
    {
        if (row < _spot.Y || row >= _spot.Bottom)
        {
            return;
        }

        int columns = _spot.Width / _array.Period;
        for (int phase = 0; phase < _array.Period; phase++)
        {
            SensorChannel channel = _array.ChannelAt(row, _spot.X + phase);
            Span<int> stack = _stacks[channel].AsSpan((row - _spot.Y) / _array.Period * columns, columns);
            for (int i = 0; i < stack.Length; i++)
            {
                stack[i] += activeRow[_spot.X + phase + (i * _array.Period)];
            }
        }

        _rowsAdded++;
    }

    /// <summary>Mean of all frames in DN.</summary>
    public double MeanDnOf(SensorChannel channel)
    {
        double frames = (double)_rowsAdded / _spot.Height;
        return RobustMean.Of(_stacks[channel], SmallestCodes * frames) / frames;
    }
}
