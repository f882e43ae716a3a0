namespace SensorLab.Reports.Documents;

/// <summary>Facts, each under its name.</summary>
/// <param name="Facts">Names and facts.</param>
internal sealed record FactsBlock(IReadOnlyList<(string Name, string Fact)> Facts) : ReportBlock;
