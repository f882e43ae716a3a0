using SensorLab.Profiles;

namespace SensorLab.Reports;

/// <summary>What a reviewer needs first: whether a sensor profile can be used, and what to shoot again.</summary>
/// <remarks>
/// An ISO stands where both its bright end and its shadow end at SNR 10 are estimates and no warning is against it or the whole
/// set. It is in doubt where a warning is, or where an end is a bound or absent. A warning of what the figures are free of casts no doubt.
/// </remarks>
public sealed class ProfileReview
{
    private const double ShadowEndSnr = 10;

    private readonly Dictionary<int, string> _doubts;

    private ProfileReview(SensorProfile profile)
    {
        _doubts = profile.IsoProfiles.DistinctBy(i => i.Iso).ToDictionary(i => i.Iso, i => DoubtsOf(profile, i));
        int[] sound = [.. _doubts.Where(d => d.Value.Length == 0).Select(d => d.Key).Order()];
        bool isAny = profile.IsoProfiles.Any(i => i.Latitude.AboveEv is not null || ShadowEndOf(i) is not null);
        CanUse = !isAny ? ProfileUse.No : sound.Length == 0 ? ProfileUse.OnlyWithCare : ProfileUse.Yes;
        Sentence = ReviewWords.Sentence(CanUse, profile, sound, _doubts);
        ShootAgain = ReshootAdvice.Of(profile);
    }

    /// <summary>Whether the profile can be used.</summary>
    public ProfileUse CanUse { get; }

    /// <summary>The same in one sentence, with what stands and what does not.</summary>
    public string Sentence { get; }

    /// <summary>What to shoot again and why, in the order in which to do it; empty for nothing.</summary>
    public IReadOnlyList<string> ShootAgain { get; }

    /// <summary>Reviews a profile.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static ProfileReview Of(SensorProfile profile) => new(profile);

    /// <summary>How an ISO stands, in a few words.</summary>
    /// <param name="iso">An ISO of the profile.</param>
    /// <returns>"stands", or what is in doubt.</returns>
    public string StateOf(int iso) => _doubts.GetValueOrDefault(iso) is { Length: > 0 } doubt ? $"in doubt: {doubt}" : "stands";

    internal static Figure? ShadowEndOf(IsoProfile iso) => iso.Latitude.BelowEv.FirstOrDefault(e => e.Snr == ShadowEndSnr)?.PerPixel;

    /// <summary>The codes of the warnings that cast doubt, each once.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">The ISO; null for warnings against the whole set.</param>
    /// <returns>In alphabetical order; without warnings of what was compensated.</returns>
    public static IReadOnlyList<string> DoubtfulCodes(SensorProfile profile, int? iso) =>
    [
        .. profile.Findings
            .Where(f => f.Severity == FindingSeverity.Warning && f.Iso == iso && !FindingCause.IsCompensated(f))
            .Select(f => f.Code)
            .Distinct()
            .Order(StringComparer.Ordinal),
    ];

    private static string DoubtsOf(SensorProfile profile, IsoProfile iso)
    {
        IEnumerable<string> warnings = DoubtfulCodes(profile, null).Union(DoubtfulCodes(profile, iso.Iso)).Order(StringComparer.Ordinal);
        return string.Join(", ", warnings.Concat(EndsOf("bright end", iso.Latitude.AboveEv)).Concat(EndsOf("shadow end", ShadowEndOf(iso))));
    }

    private static IEnumerable<string> EndsOf(string end, Figure? figure) => figure switch
    {
        null => [$"no {end}"],
        { Value: null } => [$"only a bound of the {end}"],
        _ => [],
    };
}
