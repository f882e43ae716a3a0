using SensorLab.Frames;

namespace SensorLab.Measurement.Statistics;

/// <summary>Mean of each channel where the camera's spot meter looks, over all frames of a level.</summary>
internal sealed class SpotMeter
{
    private readonly PixelRectangle _spot;
    private readonly ColourFilterArray _array;
    private readonly Dictionary<SensorChannel, (double Sum, long Values)> _sums = [];

    public SpotMeter(PixelRectangle spot, ColourFilterArray array)
    {
        _spot = spot;
        _array = array;
        foreach (SensorChannel channel in array.Channels)
        {
            _sums[channel] = default;
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

        for (int phase = 0; phase < _array.Period; phase++)
        {
            SensorChannel channel = _array.ChannelAt(row, _spot.X + phase);
            (double sum, long values) = _sums[channel];
            for (int x = _spot.X + phase; x < _spot.Right; x += _array.Period)
            {
                sum += activeRow[x];
                values++;
            }

            _sums[channel] = (sum, values);
        }
    }

    /// <summary>Mean of all frames in DN.</summary>
    public double MeanDnOf(SensorChannel channel) => _sums[channel].Sum / _sums[channel].Values;
}
