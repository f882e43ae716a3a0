using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Profiles that cannot be compared: every reason is a finding of severity refusal.</summary>
public sealed class ProfilesNotComparableException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="findings">The reasons, one or more.</param>
    public ProfilesNotComparableException(IReadOnlyList<Finding> findings)
        : base(string.Join(" ", findings.Select(f => f.Message))) => Findings = findings;

    /// <summary>The reasons.</summary>
    public IReadOnlyList<Finding> Findings { get; }
}
