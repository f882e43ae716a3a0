using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Sets;

/// <summary>Findings of which a folder of anything could give one for every file: beyond some of a kind, one stands for the rest.</summary>
internal static class FindingCrowd
{
    /// <summary>Findings of one code, severity, ISO and channel that are told one by one.</summary>
    private const int MostAlike = 100;

    /// <summary>Files that the finding for the rest names.</summary>
    private const int MostNamed = 1000;

    /// <summary>The findings, those beyond a hundred of a kind taken together.</summary>
    /// <param name="findings">In the order in which they are told.</param>
    /// <returns>In the same order; a list that was shortened is not shortened again.</returns>
    public static IReadOnlyList<Finding> Shortened(IReadOnlyList<Finding> findings) =>
        findings.Count <= MostAlike ? findings : [.. findings.GroupBy(f => (f.Severity, f.Code, f.Iso, f.Channel)).SelectMany(alike => Shortened([.. alike]))];

    private static IEnumerable<Finding> Shortened(Finding[] alike) =>
        alike.Length <= MostAlike ? alike : alike.Take(MostAlike - 1).Append(ForRest(alike[(MostAlike - 1)..]));

    private static Finding ForRest(Finding[] rest) => rest[0] with
    {
        Frames = [.. rest.SelectMany(f => f.Frames).Distinct(StringComparer.Ordinal).Take(MostNamed)],
        Size = rest.Length,
        SizeUnit = "count",
        Message = string.Create(CultureInfo.InvariantCulture, $"{rest.Length} more such findings, which are not told one by one. The first of them: {rest[0].Message}"),
    };
}
