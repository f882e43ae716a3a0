namespace SensorLab.Reports.Documents;

/// <summary>What a page shows when asked; paper shows it at once.</summary>
/// <param name="Summary">What one asks for.</param>
/// <param name="Blocks">What is shown.</param>
internal sealed record OnDemandBlock(string Summary, IReadOnlyList<ReportBlock> Blocks) : ReportBlock;
