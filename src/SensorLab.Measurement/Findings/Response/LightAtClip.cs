using MathNet.Numerics.Distributions;
using SensorLab.Law;

namespace SensorLab.Measurement.Findings.Response;

/// <summary>
/// How much light a level near the clip has had: more than its mean says, since where the field is brighter, and where
/// pixels are more sensitive, the clip has taken some.
/// </summary>
internal static class LightAtClip
{
    /// <summary>Up to this share of saturation in the brightest block nothing is taken that matters: 10⁻⁴ of the mean at a spread of 3 %.</summary>
    private const double SmallestShare = 0.9;

    /// <summary>Blocks whose light differs by more reach the clip one after the other, and saturation itself is less sure: nothing is told there.</summary>
    private const double MostUneven = 0.1;

    /// <summary>Light looked for, as a share of saturation: beyond, hardly a pixel is below the clip.</summary>
    private const double MostLight = 2;

    /// <summary>Halvings of the range: to a millionth.</summary>
    private const int Halvings = 21;

    /// <summary>A level's signal as a share of saturation, as it were without the clip; null where light too uneven hides it.</summary>
    /// <param name="evidence">The ISO.</param>
    /// <param name="level">The level, its share below 1.</param>
    /// <param name="channel">Index of the channel.</param>
    /// <param name="even">A level below the clip, which tells how even the light is.</param>
    /// <remarks>The mean of min(x, 1) over the blocks of the region, x normal around each block's light with the spread of its pixels.</remarks>
    public static double? ShareOf(IsoEvidence evidence, EvidenceLevel level, int channel, EvidenceLevel even)
    {
        double share = evidence.ShareOf(level, channel);
        double[] lights = BlockLights(evidence, even, channel);
        if (share * lights.Max() < SmallestShare)
        {
            return share;
        }

        if (lights.Max() - lights.Min() > MostUneven)
        {
            return null;
        }

        NoiseModel noise = evidence.Channels[channel].Noise;
        double signal = evidence.SignalDn(level, channel);
        double variance = noise.TotalVarianceAt(signal) is var total && double.IsFinite(total) ? total : noise.TemporalVarianceAt(signal);
        double spread = double.IsFinite(variance) ? Math.Sqrt(variance) / signal : 0;
        double low = share;
        double high = MostLight;
        for (int i = 0; i < Halvings; i++)
        {
            double light = (low + high) / 2;
            (low, high) = lights.Average(l => Clipped(light * l, spread)) < share ? (light, high) : (low, light);
        }

        return (low + high) / 2;
    }

    /// <summary>Mean of min(x, 1), x normal with a relative spread.</summary>
    private static double Clipped(double mean, double spread)
    {
        double deviation = spread * mean;
        if (!(deviation > 0))
        {
            return Math.Min(mean, 1);
        }

        double above = (mean - 1) / deviation;
        return mean - (deviation * (Normal.PDF(0, 1, above) + (above * Normal.CDF(0, 1, above))));
    }

    /// <summary>Light of each block over the region's mean.</summary>
    private static double[] BlockLights(IsoEvidence evidence, EvidenceLevel level, int channel)
    {
        double black = evidence.BlackDn(channel);
        double[] signals = [.. level.Statistics.Channels[channel].Blocks.MeansDn.Select(mean => mean - black)];
        double mean = signals.Average();
        return [.. signals.Select(s => s / mean)];
    }
}
