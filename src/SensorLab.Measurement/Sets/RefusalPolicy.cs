using SensorLab.Profiles;

namespace SensorLab.Measurement.Sets;

/// <summary>What refusals among the findings mean for a set: one of the set refuses it, one of an ISO that ISO alone.</summary>
/// <remarks>A set of which every ISO is refused is refused.</remarks>
public static class RefusalPolicy
{
    /// <summary>The ISOs that findings refuse.</summary>
    /// <param name="findings">All findings of a set.</param>
    /// <returns>ISO settings, each once.</returns>
    public static IReadOnlySet<int> RefusedIsos(IEnumerable<Finding> findings) =>
        findings.Where(f => f is { Severity: FindingSeverity.Refusal, Iso: not null }).Select(f => f.Iso!.Value).ToHashSet();

    /// <summary>Whether nothing of the set can be measured.</summary>
    /// <param name="findings">All findings of a set.</param>
    /// <param name="isos">The ISOs of its frames.</param>
    /// <returns>True where a finding refuses the whole set, or findings refuse every ISO of it, or it has none.</returns>
    public static bool RefusesSet(IReadOnlyCollection<Finding> findings, IEnumerable<int> isos) =>
        findings.Any(f => f is { Severity: FindingSeverity.Refusal, Iso: null }) || RefusedIsos(findings).IsSupersetOf(isos);
}
