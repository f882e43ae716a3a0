using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;

namespace SensorLab.Measurement.Figures;

/// <summary>Finds EV 0 of every channel.</summary>
internal static class MiddleGreyEstimator
{
    /// <summary>ISO 12232, saturation-based speed: saturation exposure over the exposure of middle grey (0.18 · √2 below full scale).</summary>
    private const double SaturationOverGrey = 7.8;

    /// <summary>Levels between these shares of saturation compare the channels' sensitivities.</summary>
    private const double LowestShare = 0.05;

    /// <summary>Mean of the metered frames where the spot meter looks.</summary>
    /// <returns>Mean in DN, black included, free of the meter's own uncertainty; null without metered frames.</returns>
    public static Estimate? Metered(ChannelModel channel)
    {
        ObservedLevel[] metered = [.. channel.Levels.Where(l => l.Channel.SpotMeanDn is not null)];
        if (metered.Length == 0)
        {
            return null;
        }

        double frames = metered.Sum(m => m.Level.Frames);
        double mean = metered.Sum(m => m.Channel.SpotMeanDn!.Value * m.Level.Frames) / frames;
        return new Estimate(mean, metered.Max(m => m.Channel.SpotMeanUncertaintyDn!.Value));
    }

    /// <summary>What the channels' means share: black that drifts, light that scatters from frame to frame, and lines that hold all channels move all of them.</summary>
    /// <param name="channels">The channels of an ISO, in order.</param>
    /// <returns>Parts of channels × channels in DN²; none where black and light stand still.</returns>
    public static IEnumerable<CovariancePart> SharedByChannels(IReadOnlyList<ChannelModel> channels)
    {
        double frames = channels[0].Levels.Where(l => l.Channel.SpotMeanDn is not null).Sum(l => l.Level.Frames);
        BlackDrift drift = channels[0].BlackDrift;
        if (drift.FrameDn2 > 0 && frames > 0)
        {
            yield return new CovariancePart(Matrix<double>.Build.Dense(channels.Count, channels.Count, drift.OfMean(frames)), drift.DegreesOfFreedom);
        }

        if (frames > 0 && channels[0].Levels[0].SharesLines)
        {
            double[] deviations = [.. channels.Select(c => (Metered(c)?.StandardUncertainty ?? 0) * Math.Sqrt(c.Levels.First(l => l.Channel.SpotMeanDn is not null).LinesShareOfMean))];
            yield return new CovariancePart(Matrix<double>.Build.Dense(channels.Count, channels.Count, (i, j) => i == j ? 0 : deviations[i] * deviations[j]), double.PositiveInfinity);
        }

        if (frames > 0 && FrameScatter.Of(channels) is { } light)
        {
            double[] signals = [.. channels.Select(c => (Metered(c)?.Value ?? double.NaN) - c.Noise[NoiseParameter.BlackDn])];
            yield return new CovariancePart(Matrix<double>.Build.Dense(channels.Count, channels.Count, (i, j) => signals[i] * signals[j] * light.Square / frames), light.DegreesOfFreedom);
        }
    }

    /// <summary>The standard's definition: the first channel's saturation exposure / 7.8, one exposure for all channels.</summary>
    /// <returns>Mean of each channel in DN, black included; null where no channel saturates.</returns>
    public static IReadOnlyList<Estimate>? Saturation(IReadOnlyList<ChannelModel> channels)
    {
        double[] sensitivities = [.. Sensitivities(channels)];
        int first = -1;
        double exposure = double.PositiveInfinity;
        for (int i = 0; i < channels.Count; i++)
        {
            double own = channels[i].Noise.SaturationLinearDn / sensitivities[i];
            if (own < exposure)
            {
                (first, exposure) = (i, own);
            }
        }

        if (first < 0)
        {
            return null;
        }

        double share = channels[first].Noise.Evaluate(m => m.SaturationLinearDn) is { } saturation ? saturation.StandardUncertainty / saturation.Value : 0;
        return [.. channels.Select((c, i) =>
        {
            double signal = c.Noise.Response.RecordedOf(exposure / SaturationOverGrey * sensitivities[i]);
            return new Estimate(c.Noise[NoiseParameter.BlackDn] + signal, signal * share);
        })];
    }

    /// <summary>Signals of the channels relative to the first one, over the levels where none is near its end.</summary>
    private static IEnumerable<double> Sensitivities(IReadOnlyList<ChannelModel> channels)
    {
        int[] usable = [.. Enumerable.Range(0, channels[0].Levels.Count).Where(level => channels.All(c => IsUsable(c, level)))];
        return channels.Select(c => usable.Length == 0 ? 1 : usable.Sum(level => SignalOf(c, level)) / usable.Sum(level => SignalOf(channels[0], level)));
    }

    private static bool IsUsable(ChannelModel channel, int level)
    {
        ObservedLevel own = channel.Levels[level];
        double top = channel.Levels.Max(l => l.Channel.MeanDn) - channel.Noise[NoiseParameter.BlackDn];
        double signal = SignalOf(channel, level);
        return !own.IsDark && own.Channel.ClippedFraction <= 0 && signal > LowestShare * top && signal < FitRange.HighestShare * top;
    }

    private static double SignalOf(ChannelModel channel, int level) => channel.Noise.Response.LinearOf(channel.Levels[level].Channel.MeanDn - channel.Noise[NoiseParameter.BlackDn]);
}
