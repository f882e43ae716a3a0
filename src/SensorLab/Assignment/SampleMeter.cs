using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>Sums a sample's rows.</summary>
internal sealed class SampleMeter
{
    private readonly ColourFilterArray _filters;
    private readonly SensorChannel[] _channels;
    private readonly int _whiteDn;
    private readonly double[] _sums;
    private readonly long[] _counts;
    private readonly List<(double Sum, int Count)[]> _bands = [];
    private double _squaredDifferences;
    private long _differences;
    private long _white;
    private long _photosites;

    /// <summary>Takes the frame that is sampled.</summary>
    public SampleMeter(RawFrame frame)
    {
        _filters = frame.Layout.ColourFilterArray;
        _channels = [.. _filters.Channels];
        _whiteDn = (int)Math.Min(ushort.MaxValue, frame.Declared.WhiteDn ?? ((1 << frame.Layout.BitDepth) - 1));
        _sums = new double[_channels.Length];
        _counts = new long[_channels.Length];
    }

    /// <summary>Begins a band.</summary>
    public void StartBand() => _bands.Add(new (double, int)[FrameSample.Columns]);

    /// <summary>Adds a row of the active area to the band begun last.</summary>
    /// <param name="row">The row's number in the active area.</param>
    /// <param name="codes">Its photosites.</param>
    public void AddRow(int row, ReadOnlySpan<ushort> codes)
    {
        int period = _filters.Columns;
        for (int phase = 0; phase < period; phase++)
        {
            SensorChannel channel = _filters.ChannelAt(row, phase);
            int at = Array.IndexOf(_channels, channel);
            bool isGreen = channel is SensorChannel.G1 or SensorChannel.G2 or SensorChannel.Y;
            long sum = 0;
            for (int x = phase; x < codes.Length; x += period)
            {
                sum += codes[x];
                _white += codes[x] >= _whiteDn ? 1 : 0;
            }

            int count = (codes.Length - phase + period - 1) / period;
            _sums[at] += sum;
            _counts[at] += count;
            _photosites += count;
            if (isGreen)
            {
                AddGreen(codes, phase, period);
            }
        }
    }

    /// <summary>The sample.</summary>
    public FrameSample ToSample() => new()
    {
        Channels = _channels,
        MeanDn = [.. _sums.Zip(_counts, (sum, count) => sum / Math.Max(1, count))],
        PixelNoiseDn = Math.Sqrt(_squaredDifferences / Math.Max(1, _differences) / 2),
        Pixels = (int)_channels.Zip(_counts).Where(c => c.First is SensorChannel.G1 or SensorChannel.G2 or SensorChannel.Y).Sum(c => c.Second),
        WhiteShare = (double)_white / Math.Max(1, _photosites),
        CellsDn = [.. _bands.SelectMany(b => b.Select(c => c.Sum / Math.Max(1, c.Count)))],
    };

    private void AddGreen(ReadOnlySpan<ushort> codes, int phase, int period)
    {
        (double Sum, int Count)[] cells = _bands[^1];
        long squared = 0;
        for (int column = 0; column < FrameSample.Columns; column++)
        {
            int first = FirstOf(column, codes.Length, phase, period);
            int end = FirstOf(column + 1, codes.Length, phase, period);
            long sum = 0;
            int count = 0;
            for (int x = first; x < end && x < codes.Length; x += period)
            {
                sum += codes[x];
                count++;
                int difference = x >= period ? codes[x] - codes[x - period] : 0;
                squared += (long)difference * difference;
            }

            cells[column].Sum += sum;
            cells[column].Count += count;
        }

        _squaredDifferences += squared;
        _differences += Math.Max(0, ((codes.Length - phase + period - 1) / period) - 1);
    }

    // The first photosite of a phase at or behind a cell's left edge.
    private static int FirstOf(int column, int width, int phase, int period)
    {
        int edge = (int)((long)width * column / FrameSample.Columns);
        int behind = edge - phase;
        return behind <= 0 ? phase : phase + ((behind + period - 1) / period * period);
    }
}
