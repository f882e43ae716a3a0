using System.Globalization;

namespace SensorLab.Retest.Changes;

/// <summary>black-moved: a channel's black level changed by more than its margin.</summary>
internal sealed class BlackMovedCheck : IChangeCheck
{
    public IEnumerable<Change> Find(RetestEvidence evidence) => evidence.Changed("blackLevelDn").GroupBy(f => f.Address.Iso).Select(iso =>
    {
        ComparedFigure most = iso.MaxBy(f => Math.Abs(f.Difference?.Value ?? 0))!;
        return new Change(ChangeCode.BlackMoved, iso.Key, string.Create(
            CultureInfo.InvariantCulture,
            $"ISO {iso.Key}: black moved from {most.Before.Value:0.00} to {most.After.Value:0.00} DN ({string.Join(", ", iso.Select(f => f.Address.Channel))}). A converter that still takes the old one away tints and lifts or crushes the shadows."));
    });
}
