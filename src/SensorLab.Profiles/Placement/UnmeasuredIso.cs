namespace SensorLab.Profiles.Placement;

/// <summary>Why a profile has no answer at an ISO.</summary>
public static class UnmeasuredIso
{
    /// <summary>The code of the refusal: the profile does not hold that ISO.</summary>
    public const string Code = "iso-unmeasured";

    /// <summary>The refusal, with what the profile itself says of that ISO before it.</summary>
    internal static IReadOnlyList<Finding> Findings(SensorProfile profile, int iso)
    {
        int[] measured = [.. profile.IsoProfiles.Select(p => p.Iso)];
        int[] neighbours = [.. measured.Where(m => m < iso).OrderDescending().Take(1), .. measured.Where(m => m > iso).Order().Take(1)];
        string names = string.Join(" and ", neighbours.Select(n => $"ISO {n}"));
        return
        [
            .. profile.Findings.Where(f => f.Iso == iso && f.Severity == FindingSeverity.Refusal),
            new Finding
            {
                Code = Code,
                Severity = FindingSeverity.Refusal,
                Iso = iso,
                Message = $"ISO {iso} was not measured, and nothing is interpolated: a setting in between is often another one pushed or pulled. Measured beside it: {names}.",
                Remedy = $"Use {names.Replace(" and ", " or ", StringComparison.Ordinal)}, or shoot a frame set at ISO {iso}.",
            },
        ];
    }
}
