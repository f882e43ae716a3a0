using SensorLab.Profiles;

namespace SensorLab.Publishing.Bundles;

/// <summary>A profile has findings beyond notes, and nobody said that it may be published with them.</summary>
public sealed class FindingsNotAcceptedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="findings">The warnings and refusals, one or more.</param>
    public FindingsNotAcceptedException(IReadOnlyList<Finding> findings)
        : base(string.Join(" ", findings.Select(f => f.Message))) => Findings = findings;

    /// <summary>The warnings and refusals.</summary>
    public IReadOnlyList<Finding> Findings { get; }
}
