using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports;

/// <summary>A review in words.</summary>
internal static class ReviewWords
{
    // More ISOs than these are counted rather than listed.
    private const int MostListed = 6;

    /// <summary>The sentence that answers "can I use it?".</summary>
    /// <param name="use">The answer.</param>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="sound">The ISOs that stand, rising.</param>
    /// <param name="doubts">Every measured ISO with its doubts; empty for one that stands.</param>
    public static string Sentence(ProfileUse use, SensorProfile profile, IReadOnlyList<int> sound, IReadOnlyDictionary<int, string> doubts)
    {
        (string Codes, int[] Isos)[] refused =
        [
            .. profile.Findings
                .Where(f => f is { Severity: FindingSeverity.Refusal, Iso: not null })
                .GroupBy(f => f.Iso!.Value)
                .GroupBy(g => string.Join(", ", g.Select(f => f.Code).Distinct().Order(StringComparer.Ordinal)), g => g.Key)
                .Select(g => (g.Key, g.Order().ToArray())),
        ];
        var parts = new List<string>();
        if (sound.Count == doubts.Count && sound.Count > 0)
        {
            parts.Add(sound.Count == 1 ? $"both ends of ISO {sound[0]} stand, and no warning casts doubt on them" : $"both ends stand at {(sound.Count == 2 ? "both" : "all " + Count(sound.Count))} ISOs measured, and no warning casts doubt on them");
        }
        else if (sound.Count > 0)
        {
            parts.Add($"{Isos(sound)} {(sound.Count == 1 ? "stands" : "stand")}");
        }

        parts.AddRange(doubts
            .Where(d => d.Value.Length > 0)
            .GroupBy(d => d.Value, d => d.Key)
            .Select(g => $"{Isos([.. g.Order()])} {(g.Count() == 1 ? "is" : "are")} in doubt ({g.Key})"));
        parts.AddRange(refused.Select(r => $"{Isos(r.Isos)} {(r.Isos.Length == 1 ? "was" : "were")} refused ({r.Codes})"));
        string answer = use switch
        {
            ProfileUse.Yes => parts.Count == 1 ? "Yes" : "Yes, where it stands",
            ProfileUse.OnlyWithCare => "Only with care",
            _ => "No: neither a bright end nor a shadow end was measured",
        };
        string because = parts.Count == 0 ? string.Empty : (use == ProfileUse.No ? "; " : ": ") + string.Join("; ", parts);
        return $"{answer}{because}.";
    }

    /// <summary>ISOs in words.</summary>
    /// <param name="isos">The ISOs, rising, one or more.</param>
    public static string Isos(IReadOnlyList<int> isos)
    {
        string[] names = [.. isos.Select(Count)];
        return names.Length > MostListed
            ? string.Create(CultureInfo.InvariantCulture, $"{names.Length} ISOs between {names[0]} and {names[^1]}")
            : names.Length == 1 ? $"ISO {names[0]}" : $"ISO {string.Join(", ", names[..^1])} and {names[^1]}";
    }

    private static string Count(int number) => number.ToString(CultureInfo.InvariantCulture);
}
