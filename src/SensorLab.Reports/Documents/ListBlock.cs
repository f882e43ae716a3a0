namespace SensorLab.Reports.Documents;

/// <summary>A list.</summary>
/// <param name="Items">Its items.</param>
internal sealed record ListBlock(IReadOnlyList<string> Items) : ReportBlock;
