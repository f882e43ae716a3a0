namespace SensorLab.Reports.Documents;

/// <summary>A heading inside a section.</summary>
/// <param name="Words">Its words.</param>
internal sealed record HeadingBlock(string Words) : ReportBlock;
