using SensorLab.Profiles.Placement;

namespace SensorLab.Retest;

/// <summary>What a comparison of two bodies of one model says for using them side by side.</summary>
internal static class SecondBody
{
    /// <summary>What to dial in on the second body at each ISO; the meters' own uncertainty is not in it.</summary>
    public static IReadOnlyList<DialIn> DialIn(IEnumerable<ComparedFigure> figures) =>
    [
        .. figures
            .Where(f => f.Address is { Name: "aboveEv", Channel: null } && f.Unit == MarginUnit.Ev && f.Difference?.Value is not null)
            .Select(f => Profiles.Placement.DialIn.Of(f.Address.Iso, f.Difference!)),
    ];
}
