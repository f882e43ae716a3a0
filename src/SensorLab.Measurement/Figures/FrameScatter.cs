using SensorLab.Law;
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

    /// <summary>What the frames of the metered levels and of the bracket's at like exposure times show.</summary>
    /// <param name="channels">The channels of an ISO, fitted.</param>
    /// <returns>Null where frames scatter no more than noise explains.</returns>
    public static FrameScatter? Of(IReadOnlyList<ChannelModel> channels)
    {
        double[] metered = [.. channels[0].Levels.Where(l => l.Level.Role == RoleName.Metered).Select(l => l.Level.ExposureSeconds)];
        double top = Enumerable.Range(0, channels[0].Levels.Count).Max(l => TotalDn(channels, l));
        FrameLight all = FrameLight.None;
        foreach (int level in Enumerable.Range(0, channels[0].Levels.Count).Where(l => IsNear(channels[0].Levels[l], metered)))
        {
            ObservedLevel[] own = [.. channels.Select(c => c.Levels[level])];
            double total = TotalDn(channels, level);
            if (total >= LowestShare * top && total <= HighestShare * top && own.All(l => l.Channel is { TemporalParts: not null, ClippedFraction: <= 0 }))
            {
                all = all.With(FrameLight.Of(own, total, channels[0].BlackDrift.FrameDn2));
            }
        }

        return all is { DegreesOfFreedom: > 0, ExcessSquares: > 0 } && all.Deviations > Significance.FrameScatter
            ? new FrameScatter(all.ExcessSquares / all.DegreesOfFreedom, all.DegreesOfFreedom)
            : null;
    }

    private static bool IsNear(ObservedLevel level, double[] metered) => !level.IsDark && level.Level.Frames > 1
        && metered.Any(m => ShutterLikeness.IsAlike(m, level.Level.ExposureSeconds));

    private static double TotalDn(IReadOnlyList<ChannelModel> channels, int level) =>
        channels.Sum(c => c.Levels[level].Channel.MeanDn - c.Noise[NoiseParameter.BlackDn]);
}
