namespace SensorLab.Reports.Documents;

/// <summary>What has to be known before the figures, a line each.</summary>
/// <param name="Lines">The lines, five at most.</param>
internal sealed record BriefBlock(IReadOnlyList<string> Lines) : ReportBlock;
