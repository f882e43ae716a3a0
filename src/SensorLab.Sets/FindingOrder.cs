using SensorLab.Profiles;

namespace SensorLab.Sets;

/// <summary>The order in which findings are told.</summary>
public static class FindingOrder
{
    /// <summary>The worst first; then by code, ISO (the whole set's first), channel and frames.</summary>
    /// <param name="findings">Findings in any order.</param>
    /// <returns>The same findings, in an order that does not hang on how they were found; of crowds of one kind, one stands for those beyond a hundred.</returns>
    public static IReadOnlyList<Finding> WorstFirst(IEnumerable<Finding> findings) => FindingCrowd.Shortened(
    [
        .. findings
            .OrderByDescending(f => f.Severity)
            .ThenBy(f => f.Code, StringComparer.Ordinal)
            .ThenBy(f => f.Iso ?? 0)
            .ThenBy(f => f.Channel, StringComparer.Ordinal)
            .ThenBy(f => f.Frames.Count > 0 ? f.Frames[0] : string.Empty, StringComparer.Ordinal)
            .ThenBy(f => f.Message, StringComparer.Ordinal),
    ]);
}
