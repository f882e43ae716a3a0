using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>How many of a set's ISOs can be characterised, where not all can.</summary>
internal static class IsoVerdict
{
    /// <summary>The sentence.</summary>
    /// <param name="isos">The ISOs of the set.</param>
    /// <param name="findings">Its findings: a refusal of an ISO takes that one out.</param>
    /// <returns>Null where no ISO is refused by itself.</returns>
    public static string? Of(IEnumerable<int> isos, IReadOnlyList<Finding> findings)
    {
        int[] refused = [.. findings.Where(f => f.Severity == FindingSeverity.Refusal).Select(f => f.Iso).OfType<int>().Distinct().Order()];
        int all = isos.Union(refused).Count();
        return refused.Length == 0 ? null : string.Create(
            CultureInfo.InvariantCulture,
            $"{all - refused.Length} of {all} ISOs can be characterised; ISO {string.Join(", ", refused)} cannot.");
    }
}
