using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>How the light of an ISO's frames scatters from one frame to the next: shutter and lamp, of which metered frames are a sample.</summary>
/// <param name="Square">Relative variance of a frame's light.</param>
/// <param name="DegreesOfFreedom">Frames that it rests on, less one a level.</param>
internal readonly record struct FrameScatter(double Square, double DegreesOfFreedom)
{
    /// <summary>Shares of the brightest level between which a level shows light rather than black or its own clip.</summary>
    private const double LowestShare = 0.05;

    private const double HighestShare = 0.8;

    /// <summary>Ratio of exposure times within which a shutter scatters alike.</summary>
    private const double SameShutter = 4;


    /// <summary>What the frames of the metered levels and of the bracket's at like exposure times show.</summary>
    /// <param name="channels">The channels of an ISO, fitted.</param>
    /// <returns>Null where frames scatter no more than noise explains.</returns>
    public static FrameScatter? Of(IReadOnlyList<ChannelModel> channels)
    {
        double[] metered = [.. channels[0].Levels.Where(l => l.Level.Role == RoleName.Metered).Select(l => l.Level.ExposureSeconds)];
        double top = Enumerable.Range(0, channels[0].Levels.Count).Max(l => TotalDn(channels, l));
        double chiSquare = 0;
        double excess = 0;
        int degrees = 0;
        foreach (int level in Enumerable.Range(0, channels[0].Levels.Count).Where(l => IsNear(channels[0].Levels[l], metered)))
        {
            ChannelLevel[] own = [.. channels.Select(c => c.Levels[level])];
            double total = TotalDn(channels, level);
            if (total < LowestShare * top || total > HighestShare * top || own.Any(l => l.Channel.TemporalParts is null || l.Channel.ClippedFraction > 0))
            {
                continue;
            }

            int frames = own.Min(l => l.Channel.FrameMeansDn.Count);
            double noise = (own.Sum(BlackMoments.TemporalVariance) + (channels.Count * channels.Count * channels[0].BlackDrift.FrameDn2)) / (total * total);
            double[] lights = [.. Enumerable.Range(0, frames).Select(f => own.Sum(l => l.Channel.FrameMeansDn[f]) / total)];
            double mean = lights.Average();
            double squares = lights.Sum(l => (l - mean) * (l - mean));
            chiSquare += squares / noise;
            excess += squares - ((frames - 1) * noise);
            degrees += frames - 1;
        }

        return degrees > 0 && excess > 0 && ChiSquareTest.Deviations(chiSquare, degrees) > Significance.FrameScatter ? new FrameScatter(excess / degrees, degrees) : null;
    }

    private static bool IsNear(ChannelLevel level, double[] metered) => !level.IsDark && level.Level.Frames > 1
        && metered.Any(m => level.Level.ExposureSeconds <= SameShutter * m && m <= SameShutter * level.Level.ExposureSeconds);

    private static double TotalDn(IReadOnlyList<ChannelModel> channels, int level) =>
        channels.Sum(c => c.Levels[level].Channel.MeanDn - c.Noise[NoiseParameter.BlackDn]);
}
