using System.Numerics;
using SensorLab.Frames;

namespace SensorLab.Debrief;

/// <summary>One row of cells while its photosites come in.</summary>
/// <remarks>Photosites of a column and of one row of the filters' pattern are of one channel: they are summed a vector at a time, and columns to cells at the end.</remarks>
internal sealed class CellRow
{
    /// <summary>Fewer photosites of a channel in a cell leave none to take away.</summary>
    private const int FewestToTrim = 4;

    private readonly FrameCells _cells;
    private readonly ColourFilterArray _filters;
    private readonly IsoGauge _gauge;
    private readonly int[] _sitesPerCell;
    private readonly Column[] _columns;

    public CellRow(FrameCells cells, ColourFilterArray filters, IsoGauge gauge)
    {
        _cells = cells;
        _filters = filters;
        _gauge = gauge;
        _sitesPerCell = new int[gauge.Clips.Count];
        foreach (SensorChannel channel in filters.Channels)
        {
            _sitesPerCell[gauge.IndexOf(channel)] = filters.SitesOf(channel).Count * (cells.Side / filters.Rows) * (cells.Side / filters.Columns);
        }

        _columns = [.. Enumerable.Range(0, filters.Rows).Select(row => new Column(cells.Columns * cells.Side, x => gauge.Clips[ChannelAt(row, x)].CodeDn))];
    }

    /// <summary>Adds a row of the active area.</summary>
    public void Add(int y, ReadOnlySpan<ushort> values)
    {
        bool isInCells = y < _cells.Rows * _cells.Side;
        int inCells = isInCells ? _cells.Columns * _cells.Side : 0;
        if (isInCells)
        {
            _columns[y % _filters.Rows].Add(values[..inCells]);
        }

        // What no whole cell covers counts as clipped or not all the same.
        for (int x = inCells; x < values.Length; x++)
        {
            int channel = ChannelAt(y, x);
            _cells.Clipped[channel] += values[x] >= _gauge.Clips[channel].CodeDn ? 1 : 0;
        }

        int period = _filters.Columns;
        for (int phase = 0; phase < period; phase++)
        {
            _cells.Photosites[ChannelAt(y, phase)] += (values.Length - phase + period - 1) / period;
        }

        if (isInCells && (y + 1) % _cells.Side == 0)
        {
            Finish(y / _cells.Side);
            Array.ForEach(_columns, c => c.Clear());
        }
    }

    private int ChannelAt(int row, int column) => _gauge.IndexOf(_filters.ChannelAt(row, column));

    private void Finish(int row)
    {
        var tallies = new Tally[_sitesPerCell.Length * _cells.Columns];
        Array.Fill(tallies, new Tally { Lowest = ushort.MaxValue });
        for (int line = 0; line < _columns.Length; line++)
        {
            _columns[line].Fold(_filters.Columns, _cells.Side);
            for (int phase = 0; phase < _filters.Columns; phase++)
            {
                _columns[line].AddTo(tallies.AsSpan(ChannelAt(line, phase) * _cells.Columns, _cells.Columns), phase, _cells.Side);
            }
        }

        for (int channel = 0; channel < _sitesPerCell.Length; channel++)
        {
            Settle(channel, row, tallies.AsSpan(channel * _cells.Columns, _cells.Columns));
        }
    }

    private void Settle(int channel, int row, ReadOnlySpan<Tally> tallies)
    {
        int sites = _sitesPerCell[channel];
        double black = _gauge.Clips[channel].BlackDn;
        Span<float> signals = _cells.SignalsDn[channel].AsSpan(row * _cells.Columns, _cells.Columns);
        Span<float> shares = _cells.ClippedShares[channel].AsSpan(row * _cells.Columns, _cells.Columns);
        long clipped = 0;
        for (int cell = 0; cell < tallies.Length; cell++)
        {
            Tally tally = tallies[cell];
            double mean = sites < FewestToTrim ? (double)tally.Sum / sites : (double)(tally.Sum - tally.Lowest - tally.Highest) / (sites - 2);
            signals[cell] = (float)(mean - black);
            shares[cell] = (float)tally.Clipped / sites;
            clipped += tally.Clipped;
        }

        _cells.Clipped[channel] += clipped;
    }

    /// <summary>Photosites of one channel in a cell.</summary>
    private struct Tally
    {
        public long Sum;
        public int Clipped;
        public ushort Lowest;
        public ushort Highest;
    }

    /// <summary>Photosites of one row of the filters' pattern, by column.</summary>
    private sealed class Column
    {
        private readonly ushort[] _clipCodes;
        private readonly uint[] _sums;
        private readonly ushort[] _clipped;
        private readonly ushort[] _lowest;
        private readonly ushort[] _highest;

        public Column(int width, Func<int, int> clipCodeAt)
        {
            _clipCodes = [.. Enumerable.Range(0, width).Select(x => (ushort)Math.Clamp(clipCodeAt(x), 0, ushort.MaxValue))];
            _sums = new uint[width];
            _clipped = new ushort[width];
            _lowest = new ushort[width];
            _highest = new ushort[width];
            Clear();
        }

        public void Add(ReadOnlySpan<ushort> values)
        {
            int x = 0;
            for (int wide = Vector<ushort>.Count; x + wide <= values.Length; x += wide)
            {
                var value = new Vector<ushort>(values[x..]);
                Vector.Widen(value, out Vector<uint> low, out Vector<uint> high);
                (new Vector<uint>(_sums, x) + low).CopyTo(_sums, x);
                (new Vector<uint>(_sums, x + (wide / 2)) + high).CopyTo(_sums, x + (wide / 2));
                Vector.Min(new Vector<ushort>(_lowest, x), value).CopyTo(_lowest, x);
                Vector.Max(new Vector<ushort>(_highest, x), value).CopyTo(_highest, x);

                // A lane that holds is all ones: one less than nothing.
                (new Vector<ushort>(_clipped, x) - Vector.GreaterThanOrEqual(value, new Vector<ushort>(_clipCodes, x))).CopyTo(_clipped, x);
            }

            for (; x < values.Length; x++)
            {
                _sums[x] += values[x];
                _lowest[x] = Math.Min(_lowest[x], values[x]);
                _highest[x] = Math.Max(_highest[x], values[x]);
                _clipped[x] += (ushort)(values[x] >= _clipCodes[x] ? 1 : 0);
            }
        }

        /// <summary>Brings the photosites of a channel in a cell together at the first of them.</summary>
        public void Fold(int period, int side)
        {
            // Places ahead are read before they are written.
            int end = _sums.Length - (side - period);
            int x = 0;
            for (int wide = Vector<ushort>.Count; x + wide <= end; x += wide)
            {
                var low = new Vector<uint>(_sums, x);
                var high = new Vector<uint>(_sums, x + (wide / 2));
                var clipped = new Vector<ushort>(_clipped, x);
                var lowest = new Vector<ushort>(_lowest, x);
                var highest = new Vector<ushort>(_highest, x);
                for (int ahead = x + period; ahead < x + side; ahead += period)
                {
                    low += new Vector<uint>(_sums, ahead);
                    high += new Vector<uint>(_sums, ahead + (wide / 2));
                    clipped += new Vector<ushort>(_clipped, ahead);
                    lowest = Vector.Min(lowest, new Vector<ushort>(_lowest, ahead));
                    highest = Vector.Max(highest, new Vector<ushort>(_highest, ahead));
                }

                low.CopyTo(_sums, x);
                high.CopyTo(_sums, x + (wide / 2));
                clipped.CopyTo(_clipped, x);
                lowest.CopyTo(_lowest, x);
                highest.CopyTo(_highest, x);
            }

            for (; x < end; x++)
            {
                for (int ahead = x + period; ahead < x + side; ahead += period)
                {
                    _sums[x] += _sums[ahead];
                    _clipped[x] += _clipped[ahead];
                    _lowest[x] = Math.Min(_lowest[x], _lowest[ahead]);
                    _highest[x] = Math.Max(_highest[x], _highest[ahead]);
                }
            }
        }

        /// <summary>Adds the folded photosites of a phase to the cells that they lie in.</summary>
        public void AddTo(Span<Tally> cells, int phase, int side)
        {
            for (int cell = 0; cell < cells.Length; cell++)
            {
                int x = (cell * side) + phase;
                ref Tally tally = ref cells[cell];
                tally.Sum += _sums[x];
                tally.Clipped += _clipped[x];
                tally.Lowest = Math.Min(tally.Lowest, _lowest[x]);
                tally.Highest = Math.Max(tally.Highest, _highest[x]);
            }
        }

        public void Clear()
        {
            Array.Clear(_sums);
            Array.Clear(_clipped);
            Array.Fill(_lowest, ushort.MaxValue);
            Array.Clear(_highest);
        }
    }
}
