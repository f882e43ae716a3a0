using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Confirms;

/// <summary>Whether channels keep their ratio up to the clip, as the profile's response says they do, from everyday frames of an ISO.</summary>
/// <remarks>
/// Two neighbouring blocks of a surface differ by its shading: by the same factor in both channels, as long as both follow the
/// light. Where the channel nearer to its clip (two thirds of saturation and above) follows by less than one further below does,
/// its response has bent. The same statistic in the middle of the range is taken off: it holds what the scene's colours do by
/// themselves. What differs between frames is the uncertainty.
/// </remarks>
internal sealed class ChannelRatios
{
    /// <summary>Least photosites a side of a block.</summary>
    private const int LeastSide = 8;

    /// <summary>Shares of saturation that are near the clip, and those that are the middle of the range.</summary>
    private const double TopFrom = 0.7;
    private const double TopTo = 0.9;
    private const double MiddleFrom = 0.25;
    private const double MiddleTo = 0.55;

    /// <summary>A photosite at this share of saturation or above is about to clip, and its block is left out.</summary>
    private const double ClipShare = 0.99;

    /// <summary>Neighbours that differ by less, in ln, or by fewer deviations of their noise, tell no ratio.</summary>
    private const double LeastStep = 0.05;
    private const double StepDeviations = 6;

    /// <summary>Neighbours that differ by more are two surfaces.</summary>
    private const double LargestStep = 0.7;

    /// <summary>Rows of blocks that are looked at, evenly over a frame: more tell hardly more.</summary>
    private const int MostRows = 96;

    /// <summary>Pairs of a frame whose median is known to a sixth of their scatter.</summary>
    private const int FewestPairs = 60;

    /// <summary>Frames whose scatter is an uncertainty: of fewer it may be small by chance.</summary>
    private const int FewestFrames = 5;

    /// <summary>Medians of frames are known no better than this.</summary>
    private const double LeastUncertainty = 0.01;

    private readonly Dictionary<SensorChannel, ChannelLaw> _laws = [];
    private readonly List<(string File, SensorChannel Channel, double Difference)> _frames = [];

    /// <summary>Takes the ISO's profile.</summary>
    /// <param name="iso">Black, saturation, response and noise of its channels.</param>
    public ChannelRatios(IsoProfile iso)
    {
        foreach (ChannelProfile channel in iso.Channels)
        {
            if (Enum.TryParse(channel.Name, out SensorChannel name) && channel is { BlackLevelDn.Value: { } black, SaturationDn.Value: { } saturation } && PublishedModel.Of(iso, channel) is { } noise)
            {
                _laws[name] = new ChannelLaw(black, saturation, PublishedModel.Response(channel), noise);
            }
        }
    }

    /// <summary>Begins a frame.</summary>
    /// <param name="layout">Its mosaic.</param>
    public FrameBlocks Begin(MosaicLayout layout) => new(this, layout);

    /// <summary>Takes what a frame showed, after its last row.</summary>
    /// <param name="file">Its name: frames are summed in their order.</param>
    /// <param name="blocks">The frame.</param>
    public void Add(string file, FrameBlocks blocks) => _frames.AddRange(blocks.Differences().Select(d => (file, d.Channel, d.Difference)));

    /// <summary>How much less a channel follows the light near its clip than in the middle of its range, over what the profile says, as a factor: 1 where it does not.</summary>
    /// <param name="channel">The channel.</param>
    /// <returns>Null where too few frames show it.</returns>
    public Estimate? Of(SensorChannel channel)
    {
        double[] all = [.. _frames.Where(f => f.Channel == channel).OrderBy(f => f.File, StringComparer.Ordinal).Select(f => f.Difference)];
        if (all.Length < FewestFrames)
        {
            return null;
        }

        double mean = all.Average();
        double scatter = Math.Sqrt(all.Sum(d => (d - mean) * (d - mean)) / (all.Length - 1) / all.Length);
        return new Estimate(1 + mean, Math.Max(LeastUncertainty, scatter));
    }

    private readonly record struct ChannelLaw(double BlackDn, double SaturationDn, ResponseCurve Response, NoiseModel Noise);

    /// <summary>A frame's blocks, a row of them at a time.</summary>
    internal sealed class FrameBlocks
    {
        private readonly ChannelRatios _owner;
        private readonly ColourFilterArray _filters;
        private readonly SensorChannel[] _channels;
        private readonly PixelRectangle _active;
        private readonly int _side;
        private readonly int _every;
        private readonly int _across;
        private readonly long[] _sums;
        private readonly int[] _counts;
        private readonly bool[] _isClipped;
        private readonly Dictionary<SensorChannel, (List<float> Top, List<float> Middle)> _found = [];

        public FrameBlocks(ChannelRatios owner, MosaicLayout layout)
        {
            _owner = owner;
            _filters = layout.ColourFilterArray;
            _channels = [.. _filters.Channels.Where(owner._laws.ContainsKey)];
            _active = layout.ActiveArea;
            _side = (LeastSide + _filters.Columns - 1) / _filters.Columns * _filters.Columns;
            _every = Math.Max(1, _active.Height / _side / MostRows);
            _across = _active.Width / _side;
            _sums = new long[_across * _channels.Length];
            _counts = new int[_channels.Length];
            _isClipped = new bool[_across];
        }

        /// <summary>Adds a row of the active area.</summary>
        /// <param name="row">Its number in the active area.</param>
        /// <param name="codes">Its photosites.</param>
        public void AddRow(int row, ReadOnlySpan<ushort> codes)
        {
            if (row / _side % _every != 0)
            {
                return;
            }

            for (int phase = 0; phase < _filters.Columns; phase++)
            {
                int channel = Array.IndexOf(_channels, _filters.ChannelAt(row, phase));
                if (channel >= 0)
                {
                    AddPhase(codes, phase, channel);
                }
            }

            if ((row + 1) % _side == 0)
            {
                Compare();
                Array.Clear(_sums);
                Array.Clear(_counts);
                Array.Clear(_isClipped);
            }
        }

        /// <summary>Near the clip less in the middle, for channels of which both were seen.</summary>
        public IEnumerable<(SensorChannel Channel, double Difference)> Differences() => _found
            .Where(f => f.Value.Top.Count >= FewestPairs && f.Value.Middle.Count >= FewestPairs)
            .Select(f => (f.Key, Median(f.Value.Top) - Median(f.Value.Middle)));

        private static double Median(List<float> values)
        {
            values.Sort();
            return values[values.Count / 2];
        }

        private void AddPhase(ReadOnlySpan<ushort> codes, int phase, int channel)
        {
            ChannelLaw law = _owner._laws[_channels[channel]];
            double clip = law.BlackDn + (ClipShare * law.SaturationDn);
            int period = _filters.Columns;
            for (int block = 0; block < _across; block++)
            {
                int end = (block + 1) * _side;
                int sum = 0;
                int highest = 0;
                for (int x = (block * _side) + phase; x < end; x += period)
                {
                    sum += codes[x];
                    highest = Math.Max(highest, codes[x]);
                }

                _sums[(block * _channels.Length) + channel] += sum;
                _isClipped[block] |= highest >= clip;
            }

            _counts[channel] += _side / period;
        }

        private void Compare()
        {
            for (int block = 0; block + 1 < _across; block += 2)
            {
                if (_isClipped[block] || _isClipped[block + 1])
                {
                    continue;
                }

                for (int one = 0; one < _channels.Length; one++)
                {
                    for (int other = one + 1; other < _channels.Length; other++)
                    {
                        Compare(block, one, other);
                    }
                }
            }
        }

        private void Compare(int block, int one, int other)
        {
            (double high, double highStep, double highVariance) = StepOf(block, one);
            (double low, double lowStep, double lowVariance) = StepOf(block, other);
            int channel = one;
            if (low > high)
            {
                (high, highStep, lowStep, channel) = (low, lowStep, highStep, other);
            }

            double step = (highStep + lowStep) / 2;
            bool isTop = high is >= TopFrom and <= TopTo;
            if ((isTop || high is >= MiddleFrom and <= MiddleTo) && Math.Abs(step) <= LargestStep
                && Math.Abs(step) >= Math.Max(LeastStep, StepDeviations * Math.Sqrt(highVariance + lowVariance)))
            {
                if (!_found.TryGetValue(_channels[channel], out (List<float> Top, List<float> Middle) lists))
                {
                    _found[_channels[channel]] = lists = ([], []);
                }

                (isTop ? lists.Top : lists.Middle).Add((float)((highStep - lowStep) / step));
            }
        }

        // The brighter block's share of saturation, the step to its neighbour in ln of light, and the step's variance.
        private (double Share, double Step, double Variance) StepOf(int block, int channel)
        {
            ChannelLaw law = _owner._laws[_channels[channel]];
            double left = ((double)_sums[(block * _channels.Length) + channel] / _counts[channel]) - law.BlackDn;
            double right = ((double)_sums[((block + 1) * _channels.Length) + channel] / _counts[channel]) - law.BlackDn;
            if (!(left > 0 && right > 0))
            {
                return (double.NaN, double.NaN, double.NaN);
            }

            double dimmer = Math.Min(left, right);
            return (
                Math.Max(left, right) / law.SaturationDn,
                Math.Log(law.Response.LinearOf(right) / law.Response.LinearOf(left)),
                2 * law.Noise.TotalVarianceAt(dimmer) / _counts[channel] / (dimmer * dimmer));
        }
    }
}
