using SensorLab.Frames;

namespace SensorLab.Measurement.Statistics;

/// <summary>Mean and variance of each channel where the camera's spot meter looks.</summary>
internal sealed class SpotMeter
{
    private readonly PixelRectangle _spot;
    private readonly ColourFilterArray _array;
    private readonly Dictionary<SensorChannel, (double Sum, double Squares, long Pixels)> _sums = [];

    public SpotMeter(PixelRectangle spot, ColourFilterArray array)
    {
        _spot = spot;
        _array = array;
        foreach (SensorChannel channel in array.Channels)
        {
            _sums[channel] = default;
        }
    }

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
            (double sum, double squares, long pixels) = _sums[channel];
            for (int x = _spot.X + phase; x < _spot.Right; x += _array.Period)
            {
                double value = activeRow[x];
                sum += value;
                squares += value * value;
                pixels++;
            }

            _sums[channel] = (sum, squares, pixels);
        }
    }

    /// <summary>Mean in DN, and the standard uncertainty of that mean from the scatter of its pixels.</summary>
    public (double MeanDn, double UncertaintyDn) Of(SensorChannel channel)
    {
        (double sum, double squares, long pixels) = _sums[channel];
        double mean = sum / pixels;
        double variance = Math.Max(0, squares - (sum * mean)) / Math.Max(1, pixels - 1);
        return (mean, Math.Sqrt(variance / pixels));
    }
}
