using SensorLab.Assignment;
using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Retest.Confirm;

namespace SensorLab.Confirms;

/// <summary>Codes of an ISO's frames by channel, and what their masked photosites hold; frames are added from several threads.</summary>
internal sealed class CodeTally(IsoProfile iso)
{
    private const int Codes = 1 << 16;

    /// <summary>Fewer masked photosites of a channel and frame say nothing.</summary>
    private const long FewestMasked = 64;

    /// <summary>How much wider than for independent photosites the mean and the noise of masked ones are known: rows and columns err together.</summary>
    private const double LinesFactor = 3;

    private readonly Lock _turn = new();
    private readonly ChannelRatios _ratios = new(iso);
    private readonly Dictionary<SensorChannel, long[]> _counts = [];
    private readonly Dictionary<SensorChannel, List<(long Count, double Mean, double Variance)>> _masked = [];
    private (string File, DeclaredLevels Levels)? _declared;

    /// <summary>Reads a frame to its end.</summary>
    /// <param name="file">Its file: the levels that the first by name declares are the ISO's.</param>
    /// <param name="reader">The frame, at its first row.</param>
    /// <param name="countsCodes">Whether its light is everyday light, whose codes tell their spacing.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>A small sample of its photosites.</returns>
    public FrameSample Add(string file, IMosaicReader reader, bool countsCodes, CancellationToken cancellation)
    {
        MosaicLayout layout = reader.Frame.Layout;
        PixelRectangle active = layout.ActiveArea;
        Dictionary<SensorChannel, long[]> own = layout.ColourFilterArray.Channels.ToDictionary(c => c, _ => new long[Codes]);
        Dictionary<SensorChannel, (long Count, double Sum, double Squares)> masked = [];
        var sample = new SampleMeter(reader.Frame);
        ChannelRatios.FrameBlocks blocks = _ratios.Begin(layout);
        using var rows = new RowBuffer(reader);
        for (int y = 0; y < layout.HeightPixels; y++)
        {
            cancellation.ThrowIfCancellationRequested();
            ReadOnlySpan<ushort> row = rows.Next();
            AddMasked(row, y, layout, masked);
            AddSample(sample, row, y, active);
            if (countsCodes && y >= active.Y && y < active.Bottom)
            {
                for (int phase = 0; phase < layout.ColourFilterArray.Columns; phase++)
                {
                    long[] counts = own[layout.ColourFilterArray.ChannelAt(y - active.Y, phase)];
                    for (int x = active.X + phase; x < active.Right; x += layout.ColourFilterArray.Columns)
                    {
                        counts[row[x]]++;
                    }
                }

                blocks.AddRow(y - active.Y, row.Slice(active.X, active.Width));
            }
        }

        lock (_turn)
        {
            Merge(file, reader.Frame.Declared, own, masked);
            _ratios.Add(file, blocks);
        }

        return sample.ToSample();
    }

    /// <summary>What all frames show of a channel.</summary>
    /// <param name="channel">The channel.</param>
    public ChannelEvidence Of(SensorChannel channel)
    {
        long[] counts = _counts.GetValueOrDefault(channel) ?? [];
        (Estimate? mean, Estimate? noise) = MaskedOf(channel);
        return new ChannelEvidence
        {
            Name = channel.ToString(),
            DeclaredBlackDn = _declared is { } d && d.Levels.BlackDn.TryGetValue(channel, out double black) ? black : null,
            DeclaredWhiteDn = _declared?.Levels.WhiteDn,
            CodeStepDn = EverydayCodes.StepDn(counts),
            PileCodeDn = EverydayCodes.PileCodeDn(counts),
            RatioNearClip = _ratios.Of(channel),
            MaskedMeanDn = mean,
            MaskedNoiseDn = noise,
        };
    }

    /// <summary>The channels met.</summary>
    public IReadOnlyList<SensorChannel> Channels => [.. _counts.Keys.Order()];

    private static void AddMasked(ReadOnlySpan<ushort> row, int y, MosaicLayout layout, Dictionary<SensorChannel, (long Count, double Sum, double Squares)> masked)
    {
        foreach (PixelRectangle area in layout.MaskedAreas)
        {
            for (int x = area.X; y >= area.Y && y < area.Bottom && x < area.Right; x++)
            {
                SensorChannel channel = layout.ColourFilterArray.ChannelAt(y - layout.ActiveArea.Y, x - layout.ActiveArea.X);
                (long count, double sum, double squares) = masked.GetValueOrDefault(channel);
                masked[channel] = (count + 1, sum + row[x], squares + ((double)row[x] * row[x]));
            }
        }
    }

    private static void AddSample(SampleMeter sample, ReadOnlySpan<ushort> row, int y, PixelRectangle active)
    {
        (bool begins, bool isIn) = FrameSampler.BandAt(y - active.Y, active.Height);
        if (begins)
        {
            sample.StartBand();
        }

        if (isIn)
        {
            sample.AddRow(y - active.Y, row.Slice(active.X, active.Width));
        }
    }

    private void Merge(string file, DeclaredLevels declared, Dictionary<SensorChannel, long[]> own, Dictionary<SensorChannel, (long Count, double Sum, double Squares)> masked)
    {
        if (_declared is not { } known || string.CompareOrdinal(file, known.File) < 0)
        {
            _declared = (file, declared);
        }

        foreach ((SensorChannel channel, long[] counts) in own)
        {
            if (!_counts.TryGetValue(channel, out long[]? all))
            {
                _counts[channel] = all = new long[Codes];
            }

            for (int code = 0; code < Codes; code++)
            {
                all[code] += counts[code];
            }
        }

        foreach ((SensorChannel channel, (long count, double sum, double squares)) in masked.Where(m => m.Value.Count >= FewestMasked))
        {
            double mean = sum / count;
            if (!_masked.TryGetValue(channel, out List<(long, double, double)>? frames))
            {
                _masked[channel] = frames = [];
            }

            frames.Add((count, mean, Math.Max(0, (squares / count) - (mean * mean))));
        }
    }

    // Masked photosites of one code are filled in by a program, not read from a sensor. Summed in one order, whichever frame came first.
    private (Estimate? Mean, Estimate? Noise) MaskedOf(SensorChannel channel)
    {
        if (!_masked.TryGetValue(channel, out List<(long Count, double Mean, double Variance)>? frames) || frames.All(f => f.Variance == 0))
        {
            return (null, null);
        }

        (long Count, double Mean, double Variance)[] ordered = [.. frames.Order()];
        double count = ordered.Average(f => (double)f.Count);
        double variance = ordered.Average(f => f.Variance);
        double mean = ordered.Average(f => f.Mean);
        double drift = ordered.Length > 1 ? ordered.Sum(f => (f.Mean - mean) * (f.Mean - mean)) / (ordered.Length - 1) / ordered.Length : 0;
        double noise = Math.Sqrt(variance);
        return (
            new Estimate(mean, Math.Sqrt(drift + (LinesFactor * LinesFactor * variance / count))),
            new Estimate(noise, LinesFactor * noise / Math.Sqrt(2 * count)));
    }
}
