using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>What a verdict assumes, in sentences; another recording mode first.</summary>
internal sealed class Assumptions(SensorProfile before, SensorProfile after, IReadOnlyList<SensorProfile> repeats)
{
    public IReadOnlyList<string> Sentences(IReadOnlyList<string> modes, IReadOnlyCollection<FigureAddress> onlyBefore, IReadOnlyCollection<FigureAddress> onlyAfter) =>
    [
        .. ModeSentences(modes),
        .. MeterSentences(),
        .. RepeatSentences(),
        .. ConditionSentences(),
        .. SharedSentences(onlyBefore, onlyAfter),
        .. DoubtSentences(),
    ];

    private IEnumerable<string> ModeSentences(IReadOnlyList<string> modes)
    {
        if (modes.Count > 0)
        {
            yield return $"Recording mode: {string.Join("; ", modes)}. The same ISO is another sensor in another mode, and updates reset menus: nothing found here is laid to the firmware before both sets are of one mode.";
        }

        IReadOnlyList<string> unknown = SettingsComparison.ModeUnknown(before, after);
        if (unknown.Count > 0)
        {
            yield return $"The frames do not say {string.Join(", ", unknown)} of both sets: they are taken to be alike. Look into the menus, updates reset them.";
        }

        if (before.MiddleGrey.Method != after.MiddleGrey.Method)
        {
            yield return $"Middle grey is defined by {before.MiddleGrey.Method} before and by {after.MiddleGrey.Method} after: figures from middle grey on differ for that alone.";
        }
    }

    private IEnumerable<string> MeterSentences()
    {
        if (before.MiddleGrey.Method == "metered" && after.MiddleGrey.Method == "metered")
        {
            yield return repeats.Count > 0
                ? "Metering alike: the meter's own uncertainty enters by what the repeats show of it, and not otherwise."
                : "Metering alike: both sets at the same point of the meter's zero. The meter's own uncertainty is in no comparison; only a repeat brings it in.";
        }
    }

    private IEnumerable<string> RepeatSentences()
    {
        yield return repeats.Count > 0
            ? string.Create(CultureInfo.InvariantCulture, $"What sets of an unchanged body differ by is taken from {repeats.Count} repeat{(repeats.Count == 1 ? string.Empty : "s")}, each ISO for itself: few tell it roughly, which widens the intervals.")
            : "Nothing but noise and the body differs between the sets: light set up anew, temperature and the meter's zero make no difference. A set of the unchanged body, shot anew and named with --repeat, would show what they make.";
    }

    private IEnumerable<string> ConditionSentences()
    {
        IReadOnlyList<string> conditions = SettingsComparison.ConditionDifferences(before, after);
        if (conditions.Count > 0)
        {
            yield return $"What else differs between the sets makes no difference: {string.Join("; ", conditions)}.";
        }
    }

    private IEnumerable<string> SharedSentences(IReadOnlyCollection<FigureAddress> onlyBefore, IReadOnlyCollection<FigureAddress> onlyAfter)
    {
        int[] isosBefore = [.. before.IsoProfiles.Select(p => p.Iso)];
        int[] isosAfter = [.. after.IsoProfiles.Select(p => p.Iso)];
        int[] alone = [.. isosBefore.Except(isosAfter).Concat(isosAfter.Except(isosBefore)).Order()];
        if (alone.Length > 0)
        {
            yield return $"Only what both sets hold is compared: not ISO {string.Join(", ", alone)}.";
        }

        string[] lost = NamesOf(onlyBefore, alone);
        string[] gained = NamesOf(onlyAfter, alone);
        if (lost.Length > 0)
        {
            yield return $"Not compared, in the first profile only: {string.Join(", ", lost)}.";
        }

        if (gained.Length > 0)
        {
            yield return $"Not compared, in the second profile only: {string.Join(", ", gained)}.";
        }
    }

    private IEnumerable<string> DoubtSentences()
    {
        foreach ((string which, SensorProfile profile) in new[] { ("first", before), ("second", after) })
        {
            string[] codes = [.. profile.Findings.Where(f => f.Severity == FindingSeverity.Warning).Select(f => f.Code).Distinct().Order(StringComparer.Ordinal)];
            if (codes.Length > 0)
            {
                yield return $"The {which} set has warnings that its figures may not survive: {string.Join(", ", codes)}.";
            }
        }
    }

    private static string[] NamesOf(IEnumerable<FigureAddress> addresses, int[] without) =>
        [.. addresses.Where(a => !without.Contains(a.Iso)).Select(a => FigureName.WordsOf(a.Name)).Distinct()];
}
