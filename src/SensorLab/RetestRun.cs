using SensorLab.Retest;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>Compares finished profiles, those of different software versions fitted again first.</summary>
public static class RetestRun
{
    /// <summary>Compares two profiles.</summary>
    /// <param name="before">The earlier profile, or the first of two bodies.</param>
    /// <param name="after">The later profile, or the second of two bodies.</param>
    /// <param name="repeats">Sets of the unchanged body, shot anew.</param>
    /// <param name="margins">The margins.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ProfilesNotComparableException">They cannot be compared.</exception>
    /// <exception cref="ProfileFormatException">A level of a profile that has to be fitted again contradicts itself.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    /// <exception cref="FrameSetRefusedException">A profile that has to be fitted again gives no figures.</exception>
    public static RetestResult Of(SensorProfile before, SensorProfile after, IReadOnlyList<SensorProfile> repeats, RetestMargins margins, CancellationToken cancellation = default)
    {
        SensorProfile[] all = [before, after, .. repeats];
        if (all.All(p => p.Software == before.Software))
        {
            return ProfileComparison.Of(before, after, repeats, margins);
        }

        bool canRefit = all.All(HoldsLevels);
        SensorProfile[] fitted = canRefit ? [.. all.Select(p => Refit.Of(p, new CharacterisationOptions(), cancellation))] : all;
        RetestResult result = ProfileComparison.Of(fitted[0], fitted[1], fitted[2..], margins);
        string versions = string.Join(" and ", all.Select(p => $"{p.Software.Name} {p.Software.Version}").Distinct());
        string sentence = canRefit
            ? $"The profiles were written by {versions}: all were fitted again from their levels by {ThisSoftware.Identity.Name} {ThisSoftware.Identity.Version}."
            : $"The profiles were written by {versions}, and one holds no levels to fit again: figures that the versions compute differently differ for that alone.";
        return result with { Assumes = [.. result.Assumes.Take(result.ModeDifferences.Count > 0 ? 1 : 0), sentence, .. result.Assumes.Skip(result.ModeDifferences.Count > 0 ? 1 : 0)] };
    }

    private static bool HoldsLevels(SensorProfile profile) =>
        profile.IsoProfiles.All(i => i.Levels.Any(l => l.Role == RoleName.Dark) && i.Levels.Any(l => RoleName.IsLit(l.Role)));
}
