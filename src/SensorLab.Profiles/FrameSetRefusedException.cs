namespace SensorLab.Profiles;

/// <summary>A frame set that cannot answer: every reason is a finding of severity refusal.</summary>
public sealed class FrameSetRefusedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="findings">All findings of the set, at least one of them a refusal.</param>
    public FrameSetRefusedException(IReadOnlyList<Finding> findings)
        : base(string.Join(" ", findings.Where(f => f.Severity == FindingSeverity.Refusal).Select(f => f.Message)))
    {
        Findings = findings;
    }

    /// <summary>All findings of the set.</summary>
    public IReadOnlyList<Finding> Findings { get; }
}
