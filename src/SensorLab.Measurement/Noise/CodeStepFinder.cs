using SensorLab.Frames;
using SensorLab.Measurement.Statistics;

namespace SensorLab.Measurement.Noise;

/// <summary>The code step of every level of a channel; where a level's own values do not tell, that of the level nearest in brightness.</summary>
internal sealed class CodeStepFinder
{
    private readonly (double MeanDn, double StepDn)[] _known;

    /// <summary>Learns the steps of one channel.</summary>
    /// <param name="levels">All levels of an ISO.</param>
    /// <param name="channel">The channel.</param>
    /// <param name="clipCodeDn">Where its values pile up; null where they do not.</param>
    public CodeStepFinder(IReadOnlyList<LevelStatistics> levels, SensorChannel channel, int? clipCodeDn) =>
        _known = [.. levels
            .Select(l => l.Channels.First(c => c.Channel == channel))
            .Where(c => clipCodeDn is not { } clip || ClipCodeFinder.ShareFrom(c.Codes, clip) <= 0)
            .Select(c => (MeanDn: MeanOf(c), Spacing: CodeSpacing.Of(c.Codes)))
            .Where(k => k.Spacing is not null)
            .Select(k => (k.MeanDn, k.Spacing!.Value.StepDn))];

    /// <summary>The step of a level in whole DN, 1 or more.</summary>
    /// <param name="channel">The level's statistics of the channel.</param>
    public int StepDnOf(ChannelStatistics channel)
    {
        double mean = MeanOf(channel);
        return _known.Length == 0 ? 1 : (int)Math.Round(_known.MinBy(k => Math.Abs(k.MeanDn - mean)).StepDn);
    }

    private static double MeanOf(ChannelStatistics channel) => channel.Frames.Sum(f => f.Sum) / channel.Pixels / channel.Frames.Count;
}
