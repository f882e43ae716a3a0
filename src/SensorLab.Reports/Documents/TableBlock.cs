using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>A table.</summary>
/// <param name="Table">The table.</param>
internal sealed record TableBlock(ReportTable Table) : ReportBlock;
