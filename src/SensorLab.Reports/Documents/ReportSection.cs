namespace SensorLab.Reports.Documents;

/// <summary>A section of a report.</summary>
/// <param name="Id">Its anchor: lower-case letters, digits and hyphens.</param>
/// <param name="Title">Its heading.</param>
/// <param name="ShortTitle">Its name in the list of contents.</param>
/// <param name="Blocks">Its pieces.</param>
internal sealed record ReportSection(string Id, string Title, string ShortTitle, IReadOnlyList<ReportBlock> Blocks);
