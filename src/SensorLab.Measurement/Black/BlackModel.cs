using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>The one model of an ISO's dark frames: black, its drift and dark signal come from it, and findings read it.</summary>
internal sealed class BlackModel
{
    private readonly LevelRecord[] _darks;
    private readonly IReadOnlyList<DarkFrames> _frames;
    private readonly BlackPosterior? _posterior;

    private BlackModel(IEnumerable<LevelRecord> darks)
    {
        _darks = [.. darks];
        _frames = DarkFrames.Of(_darks);
        if (_frames.Count == 0)
        {
            return;
        }

        _posterior = new BlackPosterior(_frames);
        double temporal = _frames.Select((f, l) => Math.Pow(_posterior.LevelWeights[l], 2) * f.TemporalDn2 / f.MeansDn.Count).Sum();
        double shared = Math.Max(0, _posterior.Black.Variance - temporal);

        // What noise alone leaves is known; all degrees of freedom that are missing are the drift's.
        double degrees = shared == 0 ? double.PositiveInfinity : _posterior.Black.DegreesOfFreedom * Math.Pow(shared / _posterior.Black.Variance, 2);
        Drift = new BlackDrift(_posterior.FrameDn2, _posterior.LevelDn2, shared, Math.Max(1, degrees));
    }

    /// <summary>How black drifts.</summary>
    public BlackDrift Drift { get; } = BlackDrift.None;

    /// <summary>The dark levels of one black, whose codes may be laid together: without dark signal to speak of, of what is likelier there than not less than their noise, and not apart from the shortest level beyond what frames scatter.</summary>
    public IReadOnlyList<LevelRecord> OfOneBlack => [.. _darks.Where((_, l) => !HoldsSignal(l) && !IsApart(l))];

    /// <summary>Variance in DN² of a level's black, as far as levels without dark signal are seen to differ.</summary>
    public double LevelsDn2 => Math.Max(Drift.LevelDn2, DarkFrames.OfLevelsDn2([.. _frames.Where((_, l) => !HoldsSignal(l))], Drift.FrameDn2));

    /// <summary>How far the means of their frames scatter.</summary>
    public BlackScatter? Scatter
    {
        get
        {
            DarkFrames[] unlit = [.. _frames.Where((_, l) => !HoldsSignal(l))];
            return unlit.Sum(f => f.MeansDn.Count) > 1 ? BlackScatter.Of(unlit) : null;
        }
    }

    /// <summary>Looks at an ISO.</summary>
    /// <param name="levels">Its levels; the dark ones count.</param>
    public static BlackModel Of(IEnumerable<LevelRecord> levels) => new(levels.Where(l => l.Role == RoleName.Dark));

    /// <summary>A channel's black.</summary>
    /// <param name="channel">The channel's name.</param>
    /// <returns>Black in DN with what the channel has of it alone: its own noise, and the sampling of its DSNU. What all channels share is <see cref="BlackDrift.BlackDn2"/>.</returns>
    public Estimate OwnOf(string channel)
    {
        IReadOnlyList<ObservedLevel> darks = ObservedLevel.Of(_darks, channel);
        double frames = _darks.Sum(d => d.Frames);
        double[] weights = [.. _darks.Select((d, l) => _posterior?.LevelWeights[l] ?? (d.Frames / frames))];
        double mean = darks.Select((d, l) => weights[l] * d.Channel.FrameMeansDn.Average()).Sum();
        ObservedLevel[] paired = [.. darks.Where(d => d.Channel.TemporalParts is not null)];
        if (paired.Length == 0)
        {
            return new Estimate(mean, darks.Max(d => d.Channel.MeanUncertaintyDn));
        }

        Estimate temporal = MeanVariance.Of(paired, c => c.TemporalParts!);
        Estimate pattern = MeanVariance.Of(paired, c => c.FixedPatternParts!);
        double perFrame = weights.Select((w, l) => w * w / _darks[l].Frames).Sum();
        double variance = pattern.Value + (temporal.Value * perFrame);
        double fourths = (pattern.Variance + (temporal.Variance * perFrame * perFrame)) / 2;
        return new Estimate(mean, Math.Sqrt(variance), fourths > 0 ? Math.Max(variance * variance / fourths, MeanVariance.FewestLines(paired[0])) : double.PositiveInfinity);
    }

    private bool IsApart(int level)
    {
        if (_frames.Count == 0)
        {
            return false;
        }

        DarkFrames shortest = _frames.MinBy(f => f.Seconds)!;
        DarkFrames own = _frames[level];
        int degrees = _frames.Sum(f => f.MeansDn.Count - 1);
        double frame = Math.Max(_frames.Average(f => f.TemporalDn2), degrees == 0 ? 0 : _frames.Sum(f => f.SquaresDn2) / degrees);
        return Math.Abs(own.MeanDn - shortest.MeanDn) > Significance.Whole * Math.Sqrt(frame * ((1.0 / own.MeansDn.Count) + (1.0 / shortest.MeansDn.Count)));
    }

    private bool HoldsSignal(int level) => _posterior is { Rises: >= 0.5 } known
        && known.RiseOf(level) > Math.Sqrt(_frames[level].TemporalDn2 / _frames[level].MeansDn.Count);
}
