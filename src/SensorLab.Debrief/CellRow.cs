using SensorLab.Frames;

namespace SensorLab.Debrief;

/// <summary>One row of cells while its photosites come in.</summary>
internal sealed class CellRow
{
    /// <summary>Fewer photosites of a channel in a cell leave none to take away.</summary>
    private const int FewestToTrim = 4;

    private readonly FrameCells _cells;
    private readonly ColourFilterArray _filters;
    private readonly IsoGauge _gauge;
    private readonly int[] _sitesPerCell;
    private readonly int[][] _sums;
    private readonly int[][] _clipped;
    private readonly ushort[][] _lowest;
    private readonly ushort[][] _highest;

    public CellRow(FrameCells cells, ColourFilterArray filters, IsoGauge gauge)
    {
        _cells = cells;
        _filters = filters;
        _gauge = gauge;
        int channels = gauge.Clips.Count;
        _sitesPerCell = new int[channels];
        foreach (SensorChannel channel in filters.Channels)
        {
            _sitesPerCell[gauge.IndexOf(channel)] = filters.SitesOf(channel).Count * (cells.Side / filters.Rows) * (cells.Side / filters.Columns);
        }

        _sums = [.. Enumerable.Range(0, channels).Select(_ => new int[cells.Columns])];
        _clipped = [.. Enumerable.Range(0, channels).Select(_ => new int[cells.Columns])];
        _lowest = [.. Enumerable.Range(0, channels).Select(_ => new ushort[cells.Columns])];
        _highest = [.. Enumerable.Range(0, channels).Select(_ => new ushort[cells.Columns])];
        Clear();
    }

    /// <summary>Adds a row of the active area.</summary>
    public void Add(int y, ReadOnlySpan<ushort> values)
    {
        int period = _filters.Columns;
        bool isInCells = y < _cells.Rows * _cells.Side;
        int inCells = isInCells ? _cells.Columns * _cells.Side : 0;
        for (int phase = 0; phase < period; phase++)
        {
            int channel = _gauge.IndexOf(_filters.ChannelAt(y, phase));
            int clip = _gauge.Clips[channel].CodeDn;
            _cells.Clipped[channel] += isInCells ? AddCells(values, channel, phase, period, clip) : 0;
            for (int x = inCells + phase; x < values.Length; x += period)
            {
                _cells.Clipped[channel] += values[x] >= clip ? 1 : 0;
            }

            _cells.Photosites[channel] += (values.Length - phase + period - 1) / period;
        }

        if (isInCells && (y + 1) % _cells.Side == 0)
        {
            Finish(y / _cells.Side);
            Clear();
        }
    }

    private long AddCells(ReadOnlySpan<ushort> values, int channel, int phase, int period, int clip)
    {
        (int[] sums, int[] clipped, ushort[] lowest, ushort[] highest) = (_sums[channel], _clipped[channel], _lowest[channel], _highest[channel]);
        long all = 0;
        for (int cell = 0; cell < sums.Length; cell++)
        {
            ReadOnlySpan<ushort> own = values.Slice(cell * _cells.Side, _cells.Side);
            (int sum, int over, ushort low, ushort high) = (0, 0, lowest[cell], highest[cell]);
            for (int x = phase; x < own.Length; x += period)
            {
                ushort value = own[x];
                sum += value;
                over += value >= clip ? 1 : 0;
                low = Math.Min(low, value);
                high = Math.Max(high, value);
            }

            sums[cell] += sum;
            clipped[cell] += over;
            lowest[cell] = low;
            highest[cell] = high;
            all += over;
        }

        return all;
    }

    private void Finish(int row)
    {
        for (int channel = 0; channel < _sums.Length; channel++)
        {
            double black = _gauge.Clips[channel].BlackDn;
            int sites = _sitesPerCell[channel];
            int first = row * _cells.Columns;
            for (int cell = 0; cell < _cells.Columns; cell++)
            {
                double mean = sites < FewestToTrim
                    ? (double)_sums[channel][cell] / sites
                    : (double)(_sums[channel][cell] - _lowest[channel][cell] - _highest[channel][cell]) / (sites - 2);
                _cells.SignalsDn[channel][first + cell] = (float)(mean - black);
                _cells.ClippedShares[channel][first + cell] = (float)_clipped[channel][cell] / sites;
            }
        }
    }

    private void Clear()
    {
        for (int channel = 0; channel < _sums.Length; channel++)
        {
            Array.Clear(_sums[channel]);
            Array.Clear(_clipped[channel]);
            Array.Fill(_lowest[channel], ushort.MaxValue);
            Array.Clear(_highest[channel]);
        }
    }
}
