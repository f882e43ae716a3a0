using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>What the searches for changes look at.</summary>
internal sealed class RetestEvidence(SensorProfile before, SensorProfile after, IReadOnlyList<ComparedFigure> figures)
{
    public SensorProfile Before => before;

    public SensorProfile After => after;

    /// <summary>The ISOs that both profiles hold.</summary>
    public IReadOnlyList<(IsoProfile Before, IsoProfile After)> Isos { get; } =
        [.. before.IsoProfiles.Join(after.IsoProfiles, b => b.Iso, a => a.Iso, (b, a) => (b, a))];

    /// <summary>The changed figures of a name.</summary>
    public IEnumerable<ComparedFigure> Changed(string name) =>
        figures.Where(f => f.Verdict == RetestVerdict.Changed && f.Address.Name == name);

    /// <summary>All figures of a name at an ISO.</summary>
    public IEnumerable<ComparedFigure> Of(string name, int iso) => figures.Where(f => f.Address.Name == name && f.Address.Iso == iso);

    /// <summary>Previews' clips that changed.</summary>
    public IEnumerable<ComparedFigure> ChangedPreviewClips() =>
        figures.Where(f => f.Verdict == RetestVerdict.Changed && f.Address.Name.StartsWith("previews.", StringComparison.Ordinal) && f.Address.Name.EndsWith(".clipEv", StringComparison.Ordinal));
}
