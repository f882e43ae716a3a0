using SensorLab.Frames;
using SensorLab.Pixels;
using SensorLab.Pixels.Codes;

namespace SensorLab.Measurement.Codes;

/// <summary>The code step of every level of a channel; where a level's own values do not tell, that of the level nearest in brightness.</summary>
internal sealed class CodeStepFinder
{
    /// <summary>Spacings that differ by less are one step, seen in several levels.</summary>
    private const double SameStep = 1.1;

    /// <summary>Spacings nearer to a whole number of DN are that number: a converter misses a code now and then.</summary>
    private const double WholeShare = 0.01;

    private readonly (double MeanDn, CodeSpacing Spacing)[] _known;

    /// <summary>Learns the steps of one channel.</summary>
    /// <param name="levels">All levels of an ISO.</param>
    /// <param name="channel">The channel.</param>
    /// <param name="clipCodeDn">Where its values pile up; null where they do not.</param>
    public CodeStepFinder(IReadOnlyList<LevelStatistics> levels, SensorChannel channel, int? clipCodeDn) =>
        _known = [.. levels
            .Select(l => l.Channels.First(c => c.Channel == channel))
            .Where(c => clipCodeDn is not { } clip || ClipCodeFinder.ShareFrom(c.Codes, clip) <= 0)
            .Select(c => (MeanDn: c.MeanDn, Spacing: CodeSpacing.Of(c)))
            .Where(k => k.Spacing is not null)
            .Select(k => (k.MeanDn, k.Spacing!.Value))];

    /// <summary>The mean step of a level in DN, 1 or more; a fraction where codes were multiplied by one.</summary>
    /// <param name="channel">The level's statistics of the channel.</param>
    public double StepDnOf(ChannelStatistics channel)
    {
        if (_known.Length == 0)
        {
            return 1;
        }

        double mean = channel.MeanDn;
        double nearest = _known.MinBy(k => Math.Abs(k.MeanDn - mean)).Spacing.StepDn;
        double step = _known
            .Where(k => k.Spacing.StepDn < SameStep * nearest && nearest < SameStep * k.Spacing.StepDn)
            .Aggregate(default(CodeSpacing), (sum, k) => sum + k.Spacing)
            .StepDn;
        double whole = Math.Round(step);
        return Math.Max(1, Math.Abs(step - whole) < WholeShare * whole ? whole : step);
    }
}
