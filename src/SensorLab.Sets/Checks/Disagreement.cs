namespace SensorLab.Sets.Checks;

/// <summary>One property of frames of which several values are met where one was expected.</summary>
/// <param name="Values">The values, the most frequent first.</param>
/// <param name="Odd">The frames of all values but the most frequent.</param>
internal sealed record Disagreement(IReadOnlyList<string> Values, IReadOnlyList<SetFrame> Odd)
{
    /// <summary>Looks for a disagreement. Frames that do not say (null or blank) agree with any.</summary>
    /// <param name="frames">The frames.</param>
    /// <param name="property">The property in a photographer's words; compared without regard to case and outer blanks.</param>
    /// <returns>The disagreement, or null where all frames that say anything say the same.</returns>
    public static Disagreement? Find(IEnumerable<SetFrame> frames, Func<SetFrame, string?> property)
    {
        IGrouping<string, SetFrame>[] groups =
        [
            .. frames
                .Select(f => (Frame: f, Value: property(f)?.Trim()))
                .Where(p => !string.IsNullOrEmpty(p.Value))
                .GroupBy(p => p.Value!, p => p.Frame, StringComparer.OrdinalIgnoreCase)
                .OrderByDescending(g => g.Count())
                .ThenBy(g => g.Key, StringComparer.OrdinalIgnoreCase),
        ];
        return groups.Length < 2 ? null : new Disagreement([.. groups.Select(g => g.Key)], [.. groups.Skip(1).SelectMany(g => g)]);
    }

    /// <summary>"A and B", "A, B and C".</summary>
    public string Listed => Values.Count < 2
        ? string.Concat(Values)
        : $"{string.Join(", ", Values.Take(Values.Count - 1))} and {Values[^1]}";
}
