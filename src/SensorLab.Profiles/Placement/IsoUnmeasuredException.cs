namespace SensorLab.Profiles.Placement;

/// <summary>A sensor profile that does not hold the ISO asked for: nothing is wrong with the set it is of.</summary>
public sealed class IsoUnmeasuredException : Exception
{
    /// <summary>The code of the finding that says so.</summary>
    public const string Code = "iso-unmeasured";

    private IsoUnmeasuredException(int iso, IReadOnlyList<int> neighbours, IReadOnlyList<Finding> findings)
        : base(findings[^1].Message)
    {
        Iso = iso;
        Neighbours = neighbours;
        Findings = findings;
    }

    /// <summary>The ISO asked for.</summary>
    public int Iso { get; }

    /// <summary>The nearest measured ISO below and above it.</summary>
    public IReadOnlyList<int> Neighbours { get; }

    /// <summary>What the profile itself says of that ISO, and last that it was not measured.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    internal static IsoUnmeasuredException Of(SensorProfile profile, int iso)
    {
        int[] measured = [.. profile.IsoProfiles.Select(p => p.Iso)];
        int[] neighbours = [.. measured.Where(m => m < iso).OrderDescending().Take(1), .. measured.Where(m => m > iso).Order().Take(1)];
        string names = string.Join(" and ", neighbours.Select(n => $"ISO {n}"));
        return new IsoUnmeasuredException(iso, neighbours,
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
        ]);
    }
}
