using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>A profile that can say nothing of any frame of a job.</summary>
/// <param name="findings">Every reason.</param>
public sealed class JobRefusedException(IReadOnlyList<Finding> findings) : Exception(findings.Count > 0 ? findings[0].Message : "No frame can be judged.")
{
    /// <summary>Every reason, with its remedy.</summary>
    public IReadOnlyList<Finding> Findings { get; } = findings;
}
