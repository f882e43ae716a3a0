using SensorLab.Profiles;

namespace SensorLab.Reports.Documents;

/// <summary>Findings with their remedies.</summary>
/// <param name="Findings">The findings, the worst first.</param>
internal sealed record FindingsBlock(IReadOnlyList<Finding> Findings) : ReportBlock;
