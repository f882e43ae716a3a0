using SensorLab.Measurement.Codes;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>The code steps of an ISO's channels.</summary>
internal sealed class CodeSteps
{
    /// <summary>Ratio of two steps that no sampling of codes brings.</summary>
    private const double DistinctRatio = 1.4;

    /// <summary>Gaps and mean step from which on codes were multiplied: a converter's own missing codes are fewer.</summary>
    private const int FewestGaps = 5;

    /// <summary>Less moves no figure by half of what it may be off.</summary>
    private const double SmallestFactor = 1.002;

    private readonly IReadOnlyList<LevelSpacing>[] _channels;

    public CodeSteps(IsoEvidence evidence) =>
        _channels = [.. evidence.Channels.Select((_, c) => LevelSpacing.Of(evidence, c))];

    public StepPattern Pattern => _channels.Select(PatternOf).Max();

    /// <summary>The mean step of each channel in DN: 1 where codes have no gaps.</summary>
    public double[] FactorsDn => [.. _channels.Select(Factor)];

    /// <summary>The largest mean step of a level in DN.</summary>
    public double WidestDn => _channels.SelectMany(c => c).Select(s => s.Spacing.StepDn).DefaultIfEmpty(1).Max();

    /// <summary>Levels with a wider step than the finest one of their channel.</summary>
    public IReadOnlyList<EvidenceLevel> WideLevels =>
    [
        .. _channels
            .SelectMany(c => c.Where(s => c.Any(other => s.Spacing.IsWiderThan(other.Spacing, DistinctRatio))))
            .Select(s => s.Level)
            .Distinct(),
    ];

    private static double Factor(IReadOnlyList<LevelSpacing> levels)
    {
        CodeSpacing all = levels.Aggregate(default(CodeSpacing), (sum, level) => sum + level.Spacing);
        return all.Gaps >= FewestGaps && all.StepDn > SmallestFactor ? all.StepDn : 1;
    }

    private static StepPattern PatternOf(IReadOnlyList<LevelSpacing> levels)
    {
        bool grows = false;
        for (int i = 0; i < levels.Count; i++)
        {
            CodeSpacing own = levels[i].Spacing;
            if (levels.Skip(i + 1).Any(later => own.IsWiderThan(later.Spacing, DistinctRatio)))
            {
                return StepPattern.Mixed;
            }

            grows |= own.IsWiderThan(levels[0].Spacing, DistinctRatio);
        }

        return grows ? StepPattern.Growing : StepPattern.Even;
    }
}

/// <summary>How the code step of an ISO behaves from level to level.</summary>
internal enum StepPattern
{
    /// <summary>The same at all levels.</summary>
    Even,

    /// <summary>Growing with the signal: a maker's curve.</summary>
    Growing,

    /// <summary>Two kinds of levels, whatever their signal: not one recording mode.</summary>
    Mixed,
}

/// <summary>The code spacing of one level, all its channels or one of them.</summary>
/// <param name="Level">The level.</param>
/// <param name="Spacing">The spacing.</param>
internal sealed record LevelSpacing(EvidenceLevel Level, CodeSpacing Spacing)
{
    /// <summary>Spacings of a channel's unclipped levels, where their values tell, in rising brightness.</summary>
    public static IReadOnlyList<LevelSpacing> Of(IsoEvidence evidence, int channel) =>
    [
        .. evidence.Levels
            .Where(l => l.Record.Channels[channel].ClippedFraction <= 0)
            .OrderBy(l => l.Record.Channels[channel].MeanDn)
            .Select(l => (Level: l, Spacing: CodeSpacing.Of(l.Statistics.Channels[channel])))
            .Where(l => l.Spacing is not null)
            .Select(l => new LevelSpacing(l.Level, l.Spacing!.Value)),
    ];
}
