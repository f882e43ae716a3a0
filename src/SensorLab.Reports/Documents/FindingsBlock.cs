namespace SensorLab.Reports.Documents;

/// <summary>Findings by cause, with what they do and what to do about them.</summary>
/// <param name="Groups">The entries, the worst first.</param>
internal sealed record FindingsBlock(IReadOnlyList<FindingGroup> Groups) : ReportBlock;
