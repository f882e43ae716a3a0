using SensorLab.Measurement.Codes;

namespace SensorLab.Measurement.Findings.Codes;

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
            .Select(l => (Level: l, Spacing: CodeSpacing.Of(l.Statistics.Channels[channel].Codes)))
            .Where(l => l.Spacing is not null)
            .Select(l => new LevelSpacing(l.Level, l.Spacing!.Value)),
    ];
}
