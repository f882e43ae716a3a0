using System.Globalization;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>What a verdict assumes, in sentences; another recording mode first.</summary>
internal sealed class Assumptions(SensorProfile before, SensorProfile after, IReadOnlyList<SensorProfile> repeats, bool isMeterTold)
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
        if (before.MiddleGrey.Method == GreyMethodName.Metered && after.MiddleGrey.Method == GreyMethodName.Metered)
        {
            yield return isMeterTold
                ? "Metering by one habit: where inside its zero the meter is read scatters as the readings within the sets and the repeats show."
                : "Metering alike: both sets at the same point of the meter's zero. One reading an ISO does not tell how readings scatter, and the meter's own uncertainty is in no comparison; two or more, or a repeat, bring it in.";
        }
    }

    private IEnumerable<string> RepeatSentences()
    {
        yield return repeats.Count > 0
            ? string.Create(CultureInfo.InvariantCulture, $"What sets of an unchanged body differ by is taken from {repeats.Count} repeat{(repeats.Count == 1 ? string.Empty : "s")} beside the protocols' typical values, which weigh as much as {TypicalScatter.DegreesOfFreedom:0} repeats of one ISO.")
            : string.Create(CultureInfo.InvariantCulture, $"Light set up anew and rooms within ±5 K make sets of an unchanged body differ by the protocols' typical {100 * TypicalScatter.Gain:0.##} % of gain, {100 * TypicalScatter.ReadNoise:0.##} % of read noise, {100 * TypicalScatter.Saturation:0.##} % of saturation and {TypicalScatter.BlackDn:0.##} DN of black (standard deviations). A set of the unchanged body, shot anew and named with --repeat, shows what they make of this body.");
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
