using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>The frames of a dark level as black sees them: the channels' mean, since black drifts, and dark signal grows, in all of them at once.</summary>
/// <remarks>
/// Decisions that change every channel's black are made on the channels' mean, which has half a channel's noise: one
/// channel's accident decides nothing, and all channels are treated alike.
/// </remarks>
/// <param name="Seconds">Exposure time.</param>
/// <param name="MeansDn">Mean of each frame in DN.</param>
/// <param name="TemporalDn2">Variance of one such mean by temporal noise alone, in DN².</param>
internal sealed record DarkFrames(double Seconds, IReadOnlyList<double> MeansDn, double TemporalDn2)
{
    /// <summary>Mean of the frames in DN.</summary>
    public double MeanDn { get; } = MeansDn.Average();

    /// <summary>Sum of squares about it in DN².</summary>
    public double SquaresDn2 => MeansDn.Sum(m => (m - MeanDn) * (m - MeanDn));

    /// <summary>The dark levels of an ISO; none where no level has two frames, and nothing tells their noise.</summary>
    /// <param name="darks">Dark levels.</param>
    public static IReadOnlyList<DarkFrames> Of(IReadOnlyList<LevelRecord> darks)
    {
        LevelRecord[] paired = [.. darks.Where(BlackMoments.IsPaired)];
        double temporal = paired.Length == 0 ? 0 : paired.Average(BlackMoments.TemporalVariance);
        return temporal > 0
            ? [.. darks.Select(d => new DarkFrames(d.ExposureSeconds, BlackMoments.FrameMeans(d), BlackMoments.IsPaired(d) ? BlackMoments.TemporalVariance(d) : temporal))]
            : [];
    }

    /// <summary>By how much the black of some frames varied about their mean, as it was in these and in no others, in DN²: what their noise would make is taken off.</summary>
    /// <param name="levels">Their levels; none where nothing is known of their noise.</param>
    public static Estimate HeldDn2(IReadOnlyList<DarkFrames> levels)
    {
        double[] means = [.. levels.SelectMany(l => l.MeansDn)];
        if (means.Length == 0)
        {
            return default;
        }

        double temporal = levels.Average(l => l.TemporalDn2);
        double mean = means.Average();
        double held = means.Average(m => (m - mean) * (m - mean)) - (temporal * (means.Length - 1) / means.Length);
        return new Estimate(held, Math.Sqrt(2 * temporal * (temporal + (2 * Math.Max(0, held))) / means.Length));
    }

    /// <summary>Variance in DN² of a level's black, as levels are seen to differ: what their noise and their frames' drift would make is taken off.</summary>
    /// <param name="levels">The levels.</param>
    /// <param name="frameDn2">Variance of one frame's black in DN².</param>
    public static double OfLevelsDn2(IReadOnlyList<DarkFrames> levels, double frameDn2) => levels.Count < 2
        ? 0
        : Math.Max(0, HeldDn2([new DarkFrames(0, [.. levels.Select(l => l.MeanDn)], levels.Average(l => (l.TemporalDn2 + frameDn2) / l.MeansDn.Count))]).Value) * levels.Count / (levels.Count - 1);

    /// <summary>What may be light of one dark frame, over all of them, in DN: what it has more than they have; 0 where none stands out above all others, or where channels tell by their colour.</summary>
    /// <param name="darks">The dark levels of an ISO.</param>
    public static double LoneLightDn(IEnumerable<LevelRecord> darks)
    {
        double[] means = [.. darks.Where(d => d.Channels.Count == 1).SelectMany(BlackMoments.FrameMeans).Order()];
        return means.Length > 2 && means[^1] - means[^2] > means[^2] - means[0] ? (means[^1] - means[..^1].Average()) / means.Length : 0;
    }
}
