using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>Where an ISO's codes lie without light, as far as it can be told before roles are known.</summary>
internal sealed class BlackReference
{
    /// <summary>Equal means at exposures this far apart are no light.</summary>
    private const double ExposuresApart = 2;

    private readonly IReadOnlyDictionary<SensorChannel, double> _blackDn;

    private BlackReference(IReadOnlyDictionary<SensorChannel, double> blackDn, double greenDn, double noiseDn, bool isFirm) =>
        (_blackDn, GreenDn, NoiseDn, IsFirm) = (blackDn, greenDn, noiseDn, isFirm);

    /// <summary>Black of green in DN.</summary>
    public double GreenDn { get; }

    /// <summary>Noise of one photosite in the darkest frames, in DN.</summary>
    public double NoiseDn { get; }

    /// <summary>Whether frames without light tell it; else it is what the files declare, or the darkest frame's mean for want of anything better.</summary>
    public bool IsFirm { get; }

    /// <summary>Black of a channel in DN.</summary>
    public double Of(SensorChannel channel) => _blackDn.GetValueOrDefault(channel, GreenDn);

    /// <summary>The reference of one ISO.</summary>
    /// <param name="frames">Its frames, one or more.</param>
    /// <remarks>
    /// The darkest frames that agree with each other, where they do so over different exposure times or near what the files
    /// declare; else what the files declare.
    /// </remarks>
    public static BlackReference Of(IReadOnlyList<SampledFrame> frames)
    {
        SampledFrame darkest = frames.MinBy(f => f.Sample.GreenDn)!;
        double limit = SeenFrame.DarkLimit(darkest.Sample, frames.Min(f => f.Sample.PixelNoiseDn));
        SampledFrame[] alike = [.. frames.Where(f => f.Sample.GreenDn - darkest.Sample.GreenDn <= limit)];
        bool isSteady = alike.Max(Seconds) >= ExposuresApart * alike.Min(Seconds) && alike.All(f => f.Sample.IsEven);
        double? declared = DeclaredGreen(darkest.Raw.Declared);
        return !isSteady && declared is { } level && Math.Abs(darkest.Sample.GreenDn - level) > limit
            ? new BlackReference(darkest.Raw.Declared.BlackDn, level, darkest.Sample.PixelNoiseDn, isFirm: false)
            : Measured(alike, isSteady || (declared is { } near && Math.Abs(darkest.Sample.GreenDn - near) <= limit));
    }

    private static BlackReference Measured(SampledFrame[] dark, bool isFirm)
    {
        IReadOnlyList<SensorChannel> channels = dark[0].Sample.Channels;
        Dictionary<SensorChannel, double> black = channels.ToDictionary(c => c, c => Median(dark.Select(f => f.Sample.Of(c) ?? f.Sample.GreenDn)));
        return new BlackReference(black, Median(dark.Select(f => f.Sample.GreenDn)), dark.Min(f => f.Sample.PixelNoiseDn), isFirm);
    }

    private static double? DeclaredGreen(DeclaredLevels declared)
    {
        double[] green = [.. declared.BlackDn.Where(b => b.Key is SensorChannel.G1 or SensorChannel.G2 or SensorChannel.Y).Select(b => b.Value)];
        return green.Length > 0 ? green.Average() : null;
    }

    private static double Seconds(SampledFrame frame) => frame.Raw.Metadata.ExposureSeconds ?? 0;

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }
}
